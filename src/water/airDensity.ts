import { problem } from '../errors/index.js';
import { checkPressure, checkTemperature } from './checkRange.js';
import { saturationPressurePa } from './saturationPressurePa.js';

const GAS_CONSTANT = 8.314_462_618_153_24; // J/(mol K), exact: SI brochure, 9th edition (2019)
const DRY_AIR_KG_PER_MOL = 28.965_46e-3; // CIPM-2007, 400 µmol/mol CO2: Picard et al., Metrologia 45 (2008) 149
const VAPOUR_KG_PER_MOL = 18.015_28e-3; // as above

/**
 * Density of moist air, kg/m³, as a mixture of ideal gases: `(p_d M_d + p_v M_v)/(R T)` with the vapour pressure
 * `p_v = φ p_sat(T)` and `p_d = p − p_v`. The ideal gas leaves out compressibility (4·10⁻⁴) and the enhancement of
 * the vapour pressure: within 0.1 % of CIPM-2007 from 10 to 35 °C, which is 10⁻⁶ of a weighed mass of water.
 * Ranges: 0 to 60 °C, 300 to 1100 hPa, `relativeHumidity` from 0 to 1.
 * Errors: `water-temperature-range`, `water-pressure-range`, `humidity-range`.
 *
 * @example
 * airDensity(101325, 293.15, 0.5) // => 1.1989
 */
export function airDensity(pressurePa: number, temperatureK: number, relativeHumidity: number): number {
  checkTemperature('The density of air', temperatureK, 273.15, 333.15);
  checkPressure('The density of air', pressurePa, 30_000, 110_000);
  if (!(relativeHumidity >= 0 && relativeHumidity <= 1)) {
    throw problem('humidity-range', { got: String(relativeHumidity) });
  }
  const vapourPa = relativeHumidity * saturationPressurePa(temperatureK);
  const dryPa = pressurePa - vapourPa;
  return (dryPa * DRY_AIR_KG_PER_MOL + vapourPa * VAPOUR_KG_PER_MOL) / (GAS_CONSTANT * temperatureK);
}
