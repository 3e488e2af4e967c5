import { problem } from '../../errors/index.js';
import type { Problem } from '../Problem.js';
import { blocksOf } from './blocksOf.js';
import { fitAutocorrelated } from './fitAutocorrelated.js';
import type { Stretch, TemperatureSeries } from './types.js';

/** A straight line through a quiet period. */
export interface PeriodLine {
  readonly meanS: number;
  readonly meanK: number;
  readonly driftKPerS: number;
  /** Of mean and drift, from the scatter. */
  readonly covariance: readonly (readonly number[])[];
  readonly degreesOfFreedom: number;
}

const fewestBlocks = 5;
const usualBlockS = 60;

/** Line through the block means of a period, by generalised least squares; blocks of 60 s, or a tenth of a short period. */
export function periodLine(series: TemperatureSeries, { fromS, toS }: Stretch, which: string): PeriodLine {
  const within = Array.from(series.timesS, (_, i) => i).filter(
    (i) => series.timesS[i]! >= fromS && series.timesS[i]! <= toS,
  );
  const timesS = Float64Array.from(within, (i) => series.timesS[i]! - fromS);
  const temperaturesK = Float64Array.from(within, (i) => series.temperaturesK[i]!);
  const blocks = blocksOf(timesS, temperaturesK, { blockS: Math.min(usualBlockS, (toS - fromS) / 10) });
  const points = blocks.observedK.length;
  if (points < fewestBlocks)
    throw problem('periods-bad', {
      got: `the period ${which} has ${within.length} readings in ${points} blocks`,
      expected: `A period of ${fewestBlocks} blocks or more`,
    });
  const middle = blocks.blockTimesS.reduce((sum, t) => sum + t, 0) / points;
  const line: Problem = {
    points,
    parameters: 2,
    names: ['mean', 'drift'],
    evaluate: (p, predicted, jacobian) => {
      for (let k = 0; k < points; k += 1) {
        const t = blocks.blockTimesS[k]! - middle;
        predicted[k] = p[0]! + p[1]! * t;
        if (jacobian === null) continue;
        jacobian[k] = 1;
        jacobian[points + k] = t;
      }
    },
  };
  const open = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const { result, degreesOfFreedom } = fitAutocorrelated(line, {
    observed: blocks.observedK,
    gaps: blocks.gaps,
    start: [blocks.observedK[0]!, 0],
    lower: open.map((value) => -value),
    upper: open,
  });
  return {
    meanS: fromS + middle,
    meanK: result.parameters[0]!,
    driftKPerS: result.parameters[1]!,
    covariance: result.covariance!,
    degreesOfFreedom,
  };
}
