import { checkTemperature } from './checkRange.js';
import { CRITICAL_K, LOWEST_K } from './constants.js';
import { region4 } from './region4Coefficients.js';

/**
 * The pressure at which water boils at a temperature, Pa: IAPWS R7-97(2012), eq. 30, from 273.15 to 647.096 K.
 * Errors: `water-temperature-range`.
 *
 * @example
 * saturationPressurePa(300) // => 3536.58941
 */
export function saturationPressurePa(temperatureK: number): number {
  checkTemperature('The saturation line of water', temperatureK, LOWEST_K, CRITICAL_K);
  const { n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 } = region4;
  const theta = temperatureK + n9 / (temperatureK - n10);
  const a = theta * theta + n1 * theta + n2;
  const b = n3 * theta * theta + n4 * theta + n5;
  const c = n6 * theta * theta + n7 * theta + n8;
  const root = (2 * c) / (-b + Math.sqrt(b * b - 4 * a * c));
  return root * root * root * root * 1e6;
}
