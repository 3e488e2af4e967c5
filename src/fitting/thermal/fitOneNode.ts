import { fitModel } from './fitModel.js';
import { oneNodeModel } from './oneNodeModel.js';
import type { ThermalData, ThermalFit, ThermalFitOptions } from './types.js';

/**
 * Fits C·dT/dt = κ·P(t) − UA·(T − Ta(t)) to a logged temperature, with the power as it was logged and a room of constant or
 * logged temperature; stepped exactly between the times at which anything is known, each series at its own times.
 *
 * From one fill only κ/C (K/J) and UA/C (1/s) can be known, and these are the parameters, with T₀. With
 * `heatCapacityJPerK` κ and UA are given too, conditional on it. Blocks and uncertainties as `fitCoolDown`.
 *
 * @throws `fit-power-missing`, `log-no-heating`, and what `fitCoolDown` throws
 * @example
 * const timesS = Array.from({ length: 181 }, (_, i) => 20 * i);
 * const temperaturesK = timesS.map((t) => 293.15 + 450 * (1 - Math.exp(-t / 5000)));
 * const power = { timesS: [0, 3600], powerW: [900, 900] };
 * const fit = fitOneNode({ temperature: { timesS, temperaturesK }, power, ambient: 293.15 }, { heatCapacityJPerK: 9000 });
 * fit.quantities.find(({ name }) => name === 'kappa').value // => 0.90000
 * fit.quantities.find(({ name }) => name === 'ua').value // => 1.80000
 */
export function fitOneNode(data: ThermalData, options: ThermalFitOptions = {}): ThermalFit {
  return fitModel(oneNodeModel, data, options);
}
