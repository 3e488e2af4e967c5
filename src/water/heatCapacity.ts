import { liquid } from './liquid.js';

/**
 * Specific heat capacity of liquid water at constant pressure, J/(kg K): IAPWS R7-97(2012), region 1. Range and
 * errors as `enthalpy`.
 *
 * @example
 * heatCapacity(293.15, 101325) // => 4184.794
 */
export function heatCapacity(temperatureK: number, pressurePa: number): number {
  return liquid(temperatureK, pressurePa).heatCapacity;
}
