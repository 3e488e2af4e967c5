import { checkedSpread } from './checkResults.js';
import { coverageFactor } from './coverageFactor.js';
import type { Limits, PooledRuns, RunsToPool } from './PooledRuns.js';
import { weightedAt } from './weightedAt.js';
import { birgeRatio } from './weightedMean.js';
import { welchSatterthwaite } from './welchSatterthwaite.js';

/**
 * One or two runs: the between-run spread is an assumed source s, taken as known. wᵢ = 1/(uᵢ² + s²),
 * u² = 1/Σw + u_s², a t interval with Welch–Satterthwaite degrees of freedom; a future run adds s².
 */
export function poolFewRuns({
  values,
  uncertainties,
  shared,
  coverage,
  assumedSpread,
}: RunsToPool): PooledRuns {
  const spread = checkedSpread(assumedSpread, values.length);
  const { weights, mean, sumOfWeights } = weightedAt(values, uncertainties, spread ** 2);
  const limits = (fresh: number) => {
    const degreesOfFreedom = welchSatterthwaite([
      { u: fresh, degreesOfFreedom: Number.POSITIVE_INFINITY },
      { u: shared.u, degreesOfFreedom: shared.degreesOfFreedom },
    ]);
    const u = Math.hypot(fresh, shared.u);
    const k = coverageFactor(coverage, degreesOfFreedom);
    const interval: Limits = [mean - k * u, mean + k * u];
    return { degreesOfFreedom, u, k, interval };
  };
  const ofMean = limits(1 / Math.sqrt(sumOfWeights));
  const ofFuture = limits(Math.sqrt(1 / sumOfWeights + spread ** 2));
  return {
    n: values.length,
    mean,
    betweenRunStandardDeviation: spread,
    varianceHK: null,
    standardUncertainty: ofMean.u,
    closedForm: { expanded: ofMean.k * ofMean.u, interval: ofMean.interval },
    interval: ofMean.interval,
    prediction: { interval: ofFuture.interval },
    coverageFactor: ofMean.k,
    degreesOfFreedom: ofMean.degreesOfFreedom,
    degreesOfFreedomBasis: 'Welch–Satterthwaite',
    weights,
    birgeRatio: birgeRatio(weightedAt(values, uncertainties, 0).chiSquared, uncertainties),
    basis: 'assumed',
  };
}
