import { liquid } from './liquid.js';

/**
 * Density of liquid water, kg/m³: one over the volume of IAPWS R7-97(2012), region 1. Range and errors as `enthalpy`.
 *
 * @example
 * density(293.15, 101325) // => 998.2061
 */
export function density(temperatureK: number, pressurePa: number): number {
  return 1 / liquid(temperatureK, pressurePa).volume;
}
