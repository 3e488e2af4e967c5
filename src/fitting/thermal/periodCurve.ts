import { problem } from '../../errors/index.js';
import type { Problem } from '../Problem.js';
import { blocksOf } from './blocksOf.js';
import { fitAutocorrelated } from './fitAutocorrelated.js';
import type { Stretch, TemperatureSeries } from './types.js';

/** A parabola through a quiet period, about its middle: T = middleK + drift·t + bend·t². */
export interface PeriodCurve {
  readonly middleS: number;
  /** Temperature and drift in the middle, and the bend in K/s². */
  readonly parameters: readonly [number, number, number];
  /** Of these, from the scatter. */
  readonly covariance: readonly (readonly number[])[];
  readonly degreesOfFreedom: number;
}

const fewestBlocks = 6;
const usualBlockS = 60;

/**
 * Parabola through the block means of a period, by generalised least squares; blocks of 60 s, or a tenth of a short period. A
 * straight line would pass for noise what an exponential bends in half an hour.
 */
export function periodCurve(series: TemperatureSeries, { fromS, toS }: Stretch, which: string): PeriodCurve {
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
  const parabola: Problem = {
    points,
    parameters: 3,
    names: ['middle', 'drift', 'bend'],
    evaluate: (p, predicted, jacobian) => {
      for (let k = 0; k < points; k += 1) {
        const t = blocks.blockTimesS[k]! - middle;
        predicted[k] = p[0]! + p[1]! * t + p[2]! * t * t;
        if (jacobian === null) continue;
        jacobian[k] = 1;
        jacobian[points + k] = t;
        jacobian[2 * points + k] = t * t;
      }
    },
  };
  const open = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const { result, degreesOfFreedom } = fitAutocorrelated(parabola, {
    observed: blocks.observedK,
    gaps: blocks.gaps,
    start: [blocks.observedK[0]!, 0, 0],
    lower: open.map((value) => -value),
    upper: open,
  });
  return {
    middleS: fromS + middle,
    parameters: result.parameters as unknown as [number, number, number],
    covariance: result.covariance!,
    degreesOfFreedom,
  };
}
