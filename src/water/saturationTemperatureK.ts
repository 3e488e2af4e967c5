import { checkPressure } from './checkRange.js';
import { CRITICAL_K, LOWEST_K } from './constants.js';
import { region4 } from './region4Coefficients.js';
import { saturationPressurePa } from './saturationPressurePa.js';

const LOWEST_PA = saturationPressurePa(LOWEST_K);
const HIGHEST_PA = saturationPressurePa(CRITICAL_K);

/**
 * The temperature at which water boils under a pressure, K: IAPWS R7-97(2012), eq. 31, from 611.213 Pa to the
 * critical pressure of 22.064 MPa. Errors: `water-pressure-range`.
 *
 * @example
 * saturationTemperatureK(101325) - 273.15 // => 99.9743
 */
export function saturationTemperatureK(pressurePa: number): number {
  checkPressure('The saturation line of water', pressurePa, LOWEST_PA, HIGHEST_PA);
  const { n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 } = region4;
  const beta = Math.sqrt(Math.sqrt(pressurePa / 1e6));
  const e = beta * beta + n3 * beta + n6;
  const f = n1 * beta * beta + n4 * beta + n7;
  const g = n2 * beta * beta + n5 * beta + n8;
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  const sum = n10 + d;
  return (sum - Math.sqrt(sum * sum - 4 * (n9 + n10 * d))) / 2;
}
