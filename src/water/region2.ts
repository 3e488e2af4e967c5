import { WATER_GAS_CONSTANT } from './constants.js';
import { fillPowers } from './powers.js';
import { region2IdealTerms, region2ResidualTerms } from './region2Coefficients.js';

const P_STAR = 1e6; // reducing pressure, Pa; with T_STAR from IAPWS R7-97(2012), section 6.1
const T_STAR = 540; // reducing temperature, K
const HIGHEST_I = 24;
const HIGHEST_J = 58;
const IDEAL_LOWEST_J = -6;
const IDEAL_HIGHEST_J = 3;

const powersPi = new Float64Array(HIGHEST_I + 1);
const powersTau = new Float64Array(IDEAL_HIGHEST_J - IDEAL_LOWEST_J + 1);
const powersB = new Float64Array(HIGHEST_J + 1);

/**
 * Specific enthalpy of steam, J/kg: region 2 of IAPWS R7-97(2012), eq. 15 to 17, h = R T τ (γ°_τ + γʳ_τ) with
 * π = p/p*, τ = T* / T. No check of the range: that is the callers' door.
 */
export function region2Enthalpy(temperatureK: number, pressurePa: number): number {
  const tau = T_STAR / temperatureK;
  fillPowers(powersPi, pressurePa / P_STAR, 0, HIGHEST_I);
  fillPowers(powersTau, tau, IDEAL_LOWEST_J, IDEAL_HIGHEST_J);
  fillPowers(powersB, tau - 0.5, 0, HIGHEST_J);
  let byTau = 0;
  for (const [j, n] of region2IdealTerms) byTau += n * j * powersTau[j - 1 - IDEAL_LOWEST_J]!;
  for (const [i, j, n] of region2ResidualTerms) {
    if (j > 0) byTau += n * powersPi[i]! * j * powersB[j - 1]!;
  }
  return WATER_GAS_CONSTANT * temperatureK * tau * byTau;
}
