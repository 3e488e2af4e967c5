import { WATER_GAS_CONSTANT } from './constants.js';
import { fillPowers } from './powers.js';
import { region1Terms } from './region1Coefficients.js';

/** Properties of liquid water and the derivatives of its enthalpy, SI. */
export interface LiquidState {
  /** Specific Gibbs energy, J/kg. */
  readonly gibbs: number;
  /** Specific volume, m³/kg. */
  readonly volume: number;
  /** Specific enthalpy, J/kg. */
  readonly enthalpy: number;
  /** (∂h/∂T) at constant pressure, which is the heat capacity, J/(kg K). */
  readonly heatCapacity: number;
  /** (∂h/∂p) at constant temperature, J/(kg Pa). */
  readonly enthalpyByPressure: number;
}

const P_STAR = 16.53e6; // reducing pressure, Pa; with T_STAR from IAPWS R7-97(2012), section 5.1
const T_STAR = 1386; // reducing temperature, K
const HIGHEST_I = 32;
const LOWEST_J = -41;
const HIGHEST_J = 17;

const powersA = new Float64Array(HIGHEST_I + 1);
const powersB = new Float64Array(HIGHEST_J - LOWEST_J + 1);

/**
 * Region 1 of IAPWS R7-97(2012), eq. 7 and table 3: γ = Σ n (7.1 − π)^I (τ − 1.222)^J with π = p/p*, τ = T* / T.
 * No check of the range: that is the callers' door.
 */
export function region1(temperatureK: number, pressurePa: number): LiquidState {
  const tau = T_STAR / temperatureK;
  const a = 7.1 - pressurePa / P_STAR;
  const b = tau - 1.222;
  fillPowers(powersA, a, 0, HIGHEST_I);
  fillPowers(powersB, b, LOWEST_J, HIGHEST_J);
  let gamma = 0;
  let byPi = 0;
  let byTau = 0;
  let byTauTau = 0;
  let byPiTau = 0;
  for (const [i, j, n] of region1Terms) {
    const term = n * powersA[i]! * powersB[j - LOWEST_J]!;
    gamma += term;
    byPi -= i * term;
    byTau += j * term;
    byTauTau += j * (j - 1) * term;
    byPiTau -= i * j * term;
  }
  byPi /= a;
  byTau /= b;
  byTauTau /= b * b;
  byPiTau /= a * b;
  const rt = WATER_GAS_CONSTANT * temperatureK;
  return {
    gibbs: rt * gamma,
    volume: (rt * byPi) / P_STAR,
    enthalpy: rt * tau * byTau,
    heatCapacity: -WATER_GAS_CONSTANT * tau * tau * byTauTau,
    enthalpyByPressure: (rt * tau * byPiTau) / P_STAR,
  };
}
