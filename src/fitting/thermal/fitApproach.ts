import { approachModel } from './approachModel.js';
import { fitModel } from './fitModel.js';
import type { ThermalData, ThermalFit, ThermalFitOptions } from './types.js';

/**
 * Fits T = T∞ − (T∞ − T₀)·exp(−t/τ) to a temperature that tends to a limit, up or down, with neither power nor room
 * known; parameters T∞, T₀ and τ, time from the first reading.
 *
 * Blocks, uncertainties and errors as `fitCoolDown`.
 *
 * @throws `fit-constant`, `fit-too-few-blocks`, `fit-input-bad`, `value-not-finite`
 * @example
 * const timesS = Array.from({ length: 241 }, (_, i) => 30 * i);
 * const temperaturesK = timesS.map((t) => 350 - 60 * Math.exp(-t / 2400));
 * const fit = fitApproach({ temperature: { timesS, temperaturesK } }, { targetK: 340 });
 * fit.parameters.map(({ value }) => value) // => [350.0000, 290.0000, 2400.000]
 * fit.quantities[0].value // => 4300.22
 */
export function fitApproach(data: ThermalData, options: ThermalFitOptions = {}): ThermalFit {
  return fitModel(approachModel, data, options);
}
