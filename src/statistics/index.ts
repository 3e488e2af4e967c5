/**
 * statistics: distribution functions, coverage factors, descriptive statistics, weighted means and the pooling of
 * runs. The one door to simple-statistics is here, in descriptive.ts.
 */
export { chiSquaredCdf } from './chiSquaredCdf.js';
export { chiSquaredQuantile } from './chiSquaredQuantile.js';
export { coverageFactor } from './coverageFactor.js';
export { mean, median, quantile, standardDeviation } from './descriptive.js';
export { normalCdf } from './normalCdf.js';
export { normalQuantile } from './normalQuantile.js';
export type { Limits, PooledRuns, RunsToPool } from './PooledRuns.js';
export { poolRuns } from './poolRuns.js';
export { studentCdf } from './studentCdf.js';
export { studentQuantile } from './studentQuantile.js';
export { type UncertaintyComponent, welchSatterthwaite } from './welchSatterthwaite.js';
export { type WeightedMean, weightedMean } from './weightedMean.js';
