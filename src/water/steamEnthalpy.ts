import { checkPressure, checkTemperature } from './checkRange.js';
import { HIGHEST_PA, LOWEST_K, REGION_1_HIGHEST_K } from './constants.js';
import { region2Enthalpy } from './region2.js';
import { saturationPressurePa } from './saturationPressurePa.js';

const HIGHEST_K = 1073.15; // IAPWS R7-97(2012), section 2

/**
 * Specific enthalpy of steam, J/kg: IAPWS R7-97(2012), region 2, from 0 to 800 °C, at pressures up to saturation (up
 * to the border with region 3 above 350 °C, eq. 5). Errors: `water-temperature-range`, `water-pressure-range`.
 *
 * @example
 * steamEnthalpy(300, 3500) // => 2549911.45
 */
export function steamEnthalpy(temperatureK: number, pressurePa: number): number {
  checkTemperature('Steam', temperatureK, LOWEST_K, HIGHEST_K);
  checkPressure('Steam at this temperature', pressurePa, Number.MIN_VALUE, highestPressurePa(temperatureK));
  return region2Enthalpy(temperatureK, pressurePa);
}

/** Upper border of region 2, Pa; above 350 °C the quadratic of IAPWS R7-97(2012), eq. 5 and table 1. */
function highestPressurePa(temperatureK: number): number {
  if (temperatureK <= REGION_1_HIGHEST_K) return saturationPressurePa(temperatureK);
  const quadratic = 0.10192970039326e-2 * temperatureK - 0.11671859879975e1;
  return Math.min(HIGHEST_PA, (0.34805185628969e3 + quadratic * temperatureK) * 1e6);
}
