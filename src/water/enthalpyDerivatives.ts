import { liquid } from './liquid.js';

/**
 * How the enthalpy of liquid water changes: `dT`, per kelvin at constant pressure, J/(kg K), and `dp`, per pascal at
 * constant temperature, J/(kg Pa). Exact derivatives of IAPWS R7-97(2012), eq. 7. Range and errors as `enthalpy`.
 *
 * @example
 * enthalpyDerivatives(300, 3e6).dT // => 4173.01218
 */
export function enthalpyDerivatives(temperatureK: number, pressurePa: number): { dT: number; dp: number } {
  const state = liquid(temperatureK, pressurePa);
  return { dT: state.heatCapacity, dp: state.enthalpyByPressure };
}
