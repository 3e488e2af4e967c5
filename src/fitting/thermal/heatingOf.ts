import { problem } from '../../errors/index.js';
import type { Stretch } from './types.js';

/** Below this no heater counts as one, as in the logs. */
const leastW = 10;

/** First and last moment at which the power is above half of its most, and the mean power between them. */
export function heatingOf(
  timesS: Float64Array,
  powerW: Float64Array,
  originS: number,
): { stretch: Stretch; meanW: number } {
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < powerW.length; i += 1) if (powerW[i]! > most) most = powerW[i]!;
  if (!(most >= leastW))
    throw problem(
      'log-no-heating',
      { why: `its power stays below ${leastW} W` },
      {},
      'A cool-down is fitted by coolDown.',
    );
  let first = 0;
  let last = powerW.length - 1;
  while (!(powerW[first]! > most / 2)) first += 1;
  while (!(powerW[last]! > most / 2)) last -= 1;
  let sum = 0;
  for (let i = first; i <= last; i += 1) sum += powerW[i]!;
  return {
    stretch: { fromS: timesS[first]! - originS, toS: timesS[last]! - originS },
    meanW: sum / (last - first + 1),
  };
}
