import { liquid } from './liquid.js';

/**
 * Specific enthalpy of liquid water, J/kg: IAPWS R7-97(2012), region 1, from 0 to 350 °C and up to 100 MPa; the
 * internal energy of the saturated liquid at the triple point is zero. Up to 3 K above the boiling point the value of
 * the superheated liquid is given. How well a difference is known: `formulationUncertainty`.
 * Errors: `water-temperature-range`, `water-pressure-range`, `water-not-liquid`.
 *
 * @example
 * enthalpy(300, 3e6) // => 115331.273
 * enthalpy(353.15, 101325) - enthalpy(293.15, 101325) // => 250978.541
 */
export function enthalpy(temperatureK: number, pressurePa: number): number {
  return liquid(temperatureK, pressurePa).enthalpy;
}
