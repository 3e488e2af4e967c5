import { checkTemperature } from './checkRange.js';
import { LOWEST_K, REGION_1_HIGHEST_K } from './constants.js';
import { region1 } from './region1.js';
import { region2Enthalpy } from './region2.js';
import { saturationPressurePa } from './saturationPressurePa.js';

/**
 * Latent heat of vaporisation h_fg = h_g − h_f on the saturation line, J/kg: IAPWS R7-97(2012), regions 1 and 2, from
 * 0 to 350 °C. Errors: `water-temperature-range`.
 *
 * @example
 * latentHeat(373.15) // => 2256472.9
 */
export function latentHeat(temperatureK: number): number {
  checkTemperature('Saturated vapour', temperatureK, LOWEST_K, REGION_1_HIGHEST_K);
  const pressurePa = saturationPressurePa(temperatureK);
  return region2Enthalpy(temperatureK, pressurePa) - region1(temperatureK, pressurePa).enthalpy;
}
