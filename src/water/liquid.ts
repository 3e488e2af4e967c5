import { problem } from '../errors/index.js';
import { celsius, checkPressure, checkTemperature, hectopascal } from './checkRange.js';
import { HIGHEST_PA, LOWEST_K, REGION_1_HIGHEST_K } from './constants.js';
import { type LiquidState, region1 } from './region1.js';
import { saturationPressurePa } from './saturationPressurePa.js';
import { saturationTemperatureK } from './saturationTemperatureK.js';

/**
 * How far above its boiling point water is still taken as liquid. A thermometer in boiling water may stand above it
 * by its own error and by superheat; eq. 7 "yields reasonable values" there (IAPWS R7-97(2012), section 5.1, from
 * memory). The 3 K are our choice.
 */
const SUPERHEAT_K = 3;

/** Lowest pressure for liquid water, Pa: that of saturation at 0 °C. Source: IAPWS R7-97(2012), eq. 30. */
const LOWEST_PA = saturationPressurePa(LOWEST_K);

/** Liquid water, checked. Errors: `water-temperature-range`, `water-pressure-range`, `water-not-liquid`. */
export function liquid(temperatureK: number, pressurePa: number): LiquidState {
  checkTemperature('Liquid water', temperatureK, LOWEST_K, REGION_1_HIGHEST_K);
  checkPressure('Liquid water', pressurePa, LOWEST_PA, HIGHEST_PA);
  const cooler = Math.max(temperatureK - SUPERHEAT_K, LOWEST_K);
  if (pressurePa < saturationPressurePa(cooler)) {
    const boiling = celsius(saturationTemperatureK(pressurePa));
    throw problem('water-not-liquid', {
      got: celsius(temperatureK),
      pressure: hectopascal(pressurePa),
      boiling,
    });
  }
  return region1(temperatureK, pressurePa);
}
