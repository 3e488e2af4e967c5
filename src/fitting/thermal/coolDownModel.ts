import { timeToTarget } from './approachModel.js';
import { coolDownProblem } from './oneNodeProblem.js';
import { type OpenVessel, openCoolDownProblem } from './openCoolDownProblem.js';
import type { Prepared } from './Prepared.js';
import { startRates } from './startRates.js';
import type { Derived, ThermalModel } from './ThermalModel.js';

const dry = { name: 'timeConstant', meaning: 'τ = C/UA', unit: 's' };
const open = { name: 'timeConstant', meaning: 'C/UA_dry, without the vapour', unit: 's' };
const conditional = 'the heat capacity stated: from a cool-down only UA/C can be known';

/** dT/dt = −(T − Ta)/τ; with a vessel that is open, the vapour's heat times `factor` beside it. */
export function coolDownModel(vesselOf: ((data: Prepared) => OpenVessel) | null, factor = 1): ThermalModel {
  return {
    name: 'coolDown',
    parameters: [
      { name: 'startTemperature', meaning: 'T₀, temperature at the first reading', unit: 'K' },
      vesselOf ? open : dry,
    ],
    needs: { power: false, ambient: true, parameters: 2 },
    linear: vesselOf ? null : { start: 0, heating: null },
    problem: (data) => {
      if (vesselOf === null) return coolDownProblem(data);
      const vessel = vesselOf(data);
      return openCoolDownProblem(data, { ...vessel, rate: factor * vessel.rate });
    },
    ...(vesselOf ? { withVapour: (by: number) => coolDownModel(vesselOf, factor * by) } : {}),
    start: (data) => {
      const { lossRate, startK } = startRates(data, false);
      const spanS = data.used.toS - data.used.fromS;
      const rate = Math.max(lossRate * (vesselOf ? 0.7 : 1), 1 / (100 * spanS));
      return [startK, 1 / rate];
    },
    lower: (data) => [Number.NEGATIVE_INFINITY, (data.used.toS - data.used.fromS) / 1000],
    upper: (data) => [Number.POSITIVE_INFINITY, (data.used.toS - data.used.fromS) * 1000],
    derived: ([startK, tau], data, { heatCapacityJPerK: C, targetK }) => {
      const list: Derived[] = [
        { name: 'lossRate', meaning: 'UA/C', unit: '1/s', value: 1 / tau!, gradient: [0, -1 / tau! ** 2] },
      ];
      if (C !== undefined)
        list.push({
          name: 'ua',
          meaning: 'UA, loss to the room for each kelvin',
          unit: 'W/K',
          value: C / tau!,
          gradient: [0, -C / tau! ** 2],
          conditionalOn: conditional,
        });
      if (targetK !== undefined && vesselOf === null) {
        const time = timeToTarget(data.timeline!.referenceK, startK!, tau!, targetK, 'first');
        list.push({ ...time, gradient: time.gradient.slice(1) });
      }
      return list;
    },
  };
}
