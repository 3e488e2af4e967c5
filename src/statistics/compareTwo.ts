import { checkUncertainty } from './checkResults.js';
import { coverageFactor } from './coverageFactor.js';
import { checkCoverage, checkDegreesOfFreedom, checkFinite } from './distributionArguments.js';
import type { Limits } from './PooledRuns.js';
import { studentTails } from './studentTails.js';

/** The difference of two results and what can be said of it. */
export interface Comparison {
  readonly difference: number;
  readonly interval: Limits;
  /** Probability that the first is the higher one; 0.5 where the two are the same without uncertainty. */
  readonly probabilityHigher: number;
  /** Two-sided: how often a difference as large turns up where there is none. */
  readonly pValue: number;
  /** Whether the interval leaves out zero: the sign of the difference is settled at this coverage. */
  readonly settled: boolean;
}

/**
 * Judges a difference first − second. Its standard uncertainty is that of the difference itself: what the two share
 * cancels in it before it comes here.
 *
 * Formula: d ± t((1 + P)/2, ν)·u(d); probability that d is above zero: F_ν(d/u). Source: JCGM 100:2008, G.3; the
 * probability is the one the scaled and shifted t distribution of JCGM 101:2008, 6.4.9, gives.
 *
 * @throws `value-not-finite`, `uncertainty-unknown`, `degrees-of-freedom-bad`, `coverage-bad`
 * @example
 * const c = compareTwo({ difference: 0.03, standardUncertainty: 0.012, degreesOfFreedom: 6, coverage: 0.95 });
 * c.interval // => [0.000637, 0.059363]
 * c.probabilityHigher // => 0.976736
 */
export function compareTwo(input: {
  readonly difference: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
  readonly coverage: number;
}): Comparison {
  const { difference, standardUncertainty: u, degreesOfFreedom, coverage } = input;
  checkFinite(difference, 'The difference');
  checkUncertainty(u, 'difference');
  checkDegreesOfFreedom(degreesOfFreedom, 'difference');
  checkCoverage(coverage);
  const half = coverageFactor(coverage, degreesOfFreedom) * u;
  const beyond = tailBeyond(difference, u, degreesOfFreedom);
  return {
    difference,
    interval: [difference - half, difference + half],
    probabilityHigher: difference >= 0 ? 1 - beyond : beyond,
    pValue: 2 * beyond,
    settled: Math.abs(difference) > half,
  };
}

/** Probability that the sign of the difference is the wrong one: half of its two-sided p value. */
export function tailBeyond(difference: number, u: number, degreesOfFreedom: number): number {
  if (difference === 0) return 0.5;
  // Without uncertainty, or with one so small that the ratio leaves the range of a double, there is no doubt.
  const t = Math.abs(difference) / u;
  return t === Number.POSITIVE_INFINITY ? 0 : studentTails(t, degreesOfFreedom).beyond;
}
