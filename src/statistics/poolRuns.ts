import { betweenVariance } from './betweenVariance.js';
import { checkResults, checkUncertainty } from './checkResults.js';
import { confidenceMixture, mixtureQuantile, ofOneFutureRun, withShared } from './confidenceMixture.js';
import { coverageFactor } from './coverageFactor.js';
import { checkCoverage, checkDegreesOfFreedom } from './distributionArguments.js';
import { findRoot } from './findRoot.js';
import type { Limits, PooledRuns, RunsToPool } from './PooledRuns.js';
import { poolFewRuns } from './poolFewRuns.js';
import { studentTails } from './studentTails.js';
import { weightedAt } from './weightedAt.js';
import { birgeRatio } from './weightedMean.js';

/**
 * Pools the runs of one setting into a mean with a coverage interval and a prediction interval for the true value
 * of one future run. Everything in the unit of the values; nothing is cut off at a physical limit.
 *
 * Three runs or more: the Paule–Mandel mean; u² = V_HK + u_s² with the Hartung–Knapp variance
 * V_HK = Q(τ²)/((n − 1)Σw); intervals from a mixture of normal distributions over all between-run variances that
 * agree with the runs (chi-squared quantiles of Q) and, where its degrees of freedom are finite, over the shared
 * uncertainty. One or two runs cannot show a spread: it is the assumed one, and the intervals are t intervals.
 *
 * Sources: R. C. Paule, J. Mandel, J. Res. NBS 87 (1982) 377; J. Hartung, G. Knapp, Statist. Med. 20 (2001) 1771;
 * JCGM 100:2008, G.4. The mixture was chosen by simulation: means covered 95.0 to 97.6 % at a nominal 95 %.
 *
 * @throws `too-few-values`, `lengths-differ`, `value-not-finite`, `uncertainty-unknown`, `degrees-of-freedom-bad`,
 *   `coverage-bad`; `spread-unknown` where one or two runs come without an assumed spread above zero
 * @example
 * const shared = { u: 0, degreesOfFreedom: Infinity };
 * const pooled = poolRuns({ values: [1, 2, 3], uncertainties: [0, 0, 0], shared, coverage: 0.95 });
 * pooled.mean // => 2
 * pooled.standardUncertainty // => 0.57735
 * pooled.coverageFactor // => 4.30265
 */
export function poolRuns(input: RunsToPool): PooledRuns {
  const { values, uncertainties, shared, coverage } = input;
  checkResults(values, uncertainties);
  checkUncertainty(shared.u, 'shared');
  checkDegreesOfFreedom(shared.degreesOfFreedom, 'shared');
  checkCoverage(coverage);
  return values.length < 3 ? poolFewRuns(input) : poolManyRuns(input);
}

function poolManyRuns({ values, uncertainties, shared, coverage }: RunsToPool): PooledRuns {
  const n = values.length;
  const between = betweenVariance(values, uncertainties, n - 1);
  const { weights, mean, sumOfWeights, chiSquared } = weightedAt(values, uncertainties, between);
  const varianceHK = chiSquared / (n - 1) / sumOfWeights;
  const standardUncertainty = Math.sqrt(varianceHK + shared.u ** 2);
  const factor = coverageFactor(coverage, n - 1);
  const expanded = Math.hypot(
    factor * Math.sqrt(varianceHK),
    coverageFactor(coverage, shared.degreesOfFreedom) * shared.u,
  );
  const mixture = withShared(confidenceMixture(values, uncertainties), shared.u, shared.degreesOfFreedom);
  const limits = (of: typeof mixture, halfWidth: number): Limits => [
    mixtureQuantile(of, (1 - coverage) / 2, mean - halfWidth, halfWidth),
    mixtureQuantile(of, (1 + coverage) / 2, mean + halfWidth, halfWidth),
  ];
  const interval = limits(mixture, expanded);
  const k = standardUncertainty === 0 ? factor : (interval[1] - interval[0]) / 2 / standardUncertainty;
  return {
    n,
    mean,
    betweenRunStandardDeviation: Math.sqrt(between),
    varianceHK,
    standardUncertainty,
    closedForm: { expanded, interval: [mean - expanded, mean + expanded] },
    interval,
    prediction: {
      interval: limits(ofOneFutureRun(mixture), Math.hypot(expanded, factor * Math.sqrt(between))),
    },
    coverageFactor: k,
    degreesOfFreedom: backSolved(k, coverage),
    degreesOfFreedomBasis: 'back-solved',
    weights,
    birgeRatio: birgeRatio(weightedAt(values, uncertainties, 0).chiSquared, uncertainties),
    basis: 'seen',
  };
}

/** The ν for which k is the two-sided t coverage factor; Infinity where k is no larger than the normal one. */
function backSolved(k: number, coverage: number): number {
  const tail = (1 - coverage) / 2;
  const most = 1e7;
  if (studentTails(k, most).beyond >= tail) return Number.POSITIVE_INFINITY;
  const at = (logNu: number) => ({
    value: Math.log(tail / studentTails(k, Math.exp(logNu)).beyond),
    slope: 0,
  });
  return Math.exp(findRoot(at, [Math.log(0.01), Math.log(most)], Math.log(10)));
}
