import { heatingDerived } from './heatingDerived.js';
import { oneNodeProblem } from './oneNodeProblem.js';
import { startRates } from './startRates.js';
import type { ThermalModel } from './ThermalModel.js';

/** C·dT/dt = κ·P − UA·(T − Ta). */
export const oneNodeModel: ThermalModel = {
  name: 'oneNode',
  parameters: [
    { name: 'heatingRate', meaning: 'κ/C, rise for each joule at the meter', unit: 'K/J' },
    { name: 'lossRate', meaning: 'UA/C, fall for each kelvin above the room', unit: '1/s' },
    { name: 'startTemperature', meaning: 'T₀, temperature at the first reading', unit: 'K' },
  ],
  needs: { power: true, ambient: true, parameters: 3 },
  linear: { start: 2, heating: 0 },
  problem: oneNodeProblem,
  start: (data) => {
    const { heatingRate, lossRate, startK } = startRates(data, true);
    return [heatingRate, lossRate, startK];
  },
  lower: () => [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY],
  upper: () => [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
  derived: (at, data, options) =>
    heatingDerived({ heatingRate: at[0]!, lossRate: at[1]!, startK: at[2]! }, 3, data, options),
};
