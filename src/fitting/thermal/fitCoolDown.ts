import { problem } from '../../errors/index.js';
import { coolDownModel } from './coolDownModel.js';
import { fitModel } from './fitModel.js';
import { openVessel, type VapourLoss } from './openVessel.js';
import type { ThermalData, ThermalFit, ThermalFitOptions } from './types.js';

/** What may be stated about a cool-down. */
export interface CoolDownOptions extends ThermalFitOptions {
  /** For an open vessel; needs `heatCapacityJPerK` too. */
  readonly vapour?: VapourLoss;
}

/**
 * Fits a cool-down: T = Ta + (T₀ − Ta)·exp(−t/τ), τ = C/UA, in a room of constant or logged temperature Ta; parameters
 * T₀ and τ, time from the first reading. With `vapour` the vessel is open and τ = C/UA_dry:
 * C·dT/dt = −UA_dry·(T − Ta) − g·h_fg·(p_sat(T) − φ·p_sat(Ta)), g from the mass that left.
 *
 * Means over 60 s blocks of readings and model, generalised least squares under first-order autocorrelation; the
 * uncertainties are those of the scatter, `sensitivities` say what instruments add. Kelvin, seconds.
 *
 * @throws `fit-ambient-missing`, `fit-constant`, `fit-too-few-blocks`, `fit-no-overlap`, `fit-input-bad`, `value-not-finite`
 * @example
 * const timesS = Array.from({ length: 361 }, (_, i) => 20 * i);
 * const temperaturesK = timesS.map((t) => 293.15 + 50 * Math.exp(-t / 5400));
 * const fit = fitCoolDown({ temperature: { timesS, temperaturesK }, ambient: 293.15 }, { heatCapacityJPerK: 9000 });
 * fit.parameters[1].value // => 5400.00
 * fit.quantities.find(({ name }) => name === 'ua').value // => 1.66667
 */
export function fitCoolDown(data: ThermalData, options: CoolDownOptions = {}): ThermalFit {
  const { vapour, heatCapacityJPerK } = options;
  if (vapour === undefined) return fitModel(coolDownModel(null), data, options);
  if (heatCapacityJPerK === undefined)
    throw problem('fit-input-bad', {
      what: 'The heat capacity of load and vessel',
      expected: 'stated where the vessel is open',
      got: 'nothing',
    });
  return fitModel(
    coolDownModel((prepared) => openVessel(prepared, vapour, heatCapacityJPerK)),
    data,
    options,
  );
}
