import { betweenVariance } from './betweenVariance.js';
import { checkedSpread, checkResults } from './checkResults.js';
import type { RunsToPool } from './PooledRuns.js';
import { weightedAt } from './weightedAt.js';

/**
 * Weights of runs in their pooled mean, adding up to 1: the same as `poolRuns` gives, without its intervals, which cost
 * a hundred times as much. They don't depend on what the runs share.
 *
 * wᵢ = 1/(uᵢ² + τ²), with the Paule–Mandel τ² of three runs or more, the square of the assumed spread of fewer.
 *
 * @throws as `poolRuns`
 * @example
 * poolingWeights({ values: [1, 2, 3], uncertainties: [0, 0, 0] }) // => [0.3333, 0.3333, 0.3333]
 * poolingWeights({ values: [1, 2], uncertainties: [1, 2], assumedSpread: 1 }) // => [0.7143, 0.2857]
 */
export function poolingWeights({
  values,
  uncertainties,
  assumedSpread,
}: Pick<RunsToPool, 'values' | 'uncertainties' | 'assumedSpread'>): readonly number[] {
  checkResults(values, uncertainties);
  const n = values.length;
  const between =
    n < 3 ? checkedSpread(assumedSpread, n) ** 2 : betweenVariance(values, uncertainties, n - 1);
  return weightedAt(values, uncertainties, between).weights;
}
