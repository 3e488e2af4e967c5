import { heatingDerived } from './heatingDerived.js';
import { columnsOf, solveNormal } from './normalEquations.js';
import type { Prepared } from './Prepared.js';
import { startRates } from './startRates.js';
import type { ParameterMeaning, ThermalModel } from './ThermalModel.js';
import { twoNodeProblem } from './twoNodeProblem.js';
import { usualIntervalS } from './usualIntervalS.js';

const parameters: readonly ParameterMeaning[] = [
  {
    name: 'heatingRate',
    meaning: 'κ/(C + C_b), rise for each joule at the meter, body and load together',
    unit: 'K/J',
  },
  { name: 'lossRate', meaning: 'UA/(C + C_b), fall for each kelvin above the room', unit: '1/s' },
  { name: 'couplingRate', meaning: 'G·(1/C + 1/C_b), pace at which body and load even out', unit: '1/s' },
  { name: 'startTemperature', meaning: 'T₀, temperature at the first reading', unit: 'K' },
  {
    name: 'startFlow',
    meaning: 'G·(T_b − T)/C at the first reading: the heat that the body still gives off',
    unit: 'K/s',
  },
];
/** Time constants of the coupling tried as starts, s. */
const triedS = [20, 60, 150, 400, 1000];

/** A heater body and a load, coupled. `bodyRatio` is C_b/C; see `twoNodeProblem` for why it is held. */
export function twoNodeModel(bodyRatio: number, freeStart: boolean): ThermalModel {
  const count = freeStart ? 5 : 4;
  const open = Number.POSITIVE_INFINITY;
  const fastest = (data: Prepared) => 10 / usualIntervalS(data.timesS);
  const slowest = (data: Prepared) => 1 / (data.used.toS - data.used.fromS);
  return {
    name: 'twoNode',
    parameters: parameters.slice(0, count),
    needs: { power: true, ambient: true, parameters: count },
    linear: { start: 3, heating: 0 },
    problem: (data) => twoNodeProblem(data, bodyRatio, freeStart),
    start: (data) => bestStart(data, bodyRatio, freeStart, slowest(data), fastest(data)),
    lower: (data) => [-open, -open, slowest(data) / 2, -open, -open].slice(0, count),
    upper: (data) => [open, open, fastest(data), open, open].slice(0, count),
    derived: (at, data, options) => [
      ...heatingDerived({ heatingRate: at[0]!, lossRate: at[1]!, startK: at[3]! }, count, data, options),
      {
        name: 'lag',
        meaning: 'time by which the load follows the heater, 1/couplingRate',
        unit: 's',
        value: 1 / at[2]!,
        gradient: Array.from({ length: count }, (_, j) => (j === 2 ? -1 / at[2]! ** 2 : 0)),
      },
    ],
  };
}

/** Of several couplings the one that leaves least after one Gauss–Newton step in the other parameters. */
function bestStart(
  data: Prepared,
  bodyRatio: number,
  freeStart: boolean,
  slowest: number,
  fastest: number,
): number[] {
  const { heatingRate, lossRate } = startRates(data, true);
  const problem = twoNodeProblem(data, bodyRatio, freeStart);
  const { points } = problem;
  let best: number[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (const tried of triedS) {
    const coupling = Math.min(fastest, Math.max(slowest, 1 / tried));
    const at = [heatingRate, lossRate, coupling, data.observedK[0]!, 0].slice(0, problem.parameters);
    const predicted = new Float64Array(points);
    const jacobian = new Float64Array(points * problem.parameters);
    problem.evaluate(Float64Array.from(at), predicted, jacobian);
    const residuals = data.observedK.map((value, k) => value - predicted[k]!);
    const columns = columnsOf(jacobian, points);
    const free = at.map((_, j) => j).filter((j) => j !== 2);
    const change = solveNormal(
      free.map((j) => columns[j]!),
      residuals,
    );
    if (change === null) continue;
    const left = residuals.map((value, k) =>
      free.reduce((rest, j, i) => rest - change[i]! * columns[j]![k]!, value),
    );
    const squares = left.reduce((sum, value) => sum + value * value, 0);
    if (!(squares < least)) continue;
    least = squares;
    best = at.map((value, j) => value + (j === 2 ? 0 : change[free.indexOf(j)]!));
  }
  return best.length > 0
    ? best
    : [heatingRate, lossRate, 1 / 60, data.observedK[0]!, 0].slice(0, problem.parameters);
}
