import { checkTemperature } from './checkRange.js';
import { LOWEST_K, REGION_1_HIGHEST_K } from './constants.js';
import { region2Enthalpy } from './region2.js';
import { saturationPressurePa } from './saturationPressurePa.js';

/**
 * Specific enthalpy of the saturated vapour h_g, J/kg: IAPWS R7-97(2012), region 2 on the saturation line, from 0 to
 * 350 °C. Errors: `water-temperature-range`.
 *
 * @example
 * vapourEnthalpy(373.15) // => 2675572.0
 */
export function vapourEnthalpy(temperatureK: number): number {
  checkTemperature('Saturated vapour', temperatureK, LOWEST_K, REGION_1_HIGHEST_K);
  return region2Enthalpy(temperatureK, saturationPressurePa(temperatureK));
}
