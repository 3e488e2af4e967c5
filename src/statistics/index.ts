/**
 * statistics: distribution functions, coverage factors, descriptive statistics, weighted means, the pooling of runs,
 * tests for outliers and consistency, comparisons, ranks and conformity. The one door to simple-statistics is here, in descriptive.ts.
 */
export { chiSquaredCdf } from './chiSquaredCdf.js';
export { chiSquaredQuantile } from './chiSquaredQuantile.js';
export { coverageFactor } from './coverageFactor.js';
export { mean, median, quantile, standardDeviation } from './descriptive.js';
export { normalCdf } from './normalCdf.js';
export { normalQuantile } from './normalQuantile.js';
export type { Limits, PooledRuns, RunsToPool } from './PooledRuns.js';
export { poolRuns } from './poolRuns.js';
export { poolingWeights } from './poolingWeights.js';
export { studentCdf } from './studentCdf.js';
export { studentQuantile } from './studentQuantile.js';
export { type UncertaintyComponent, welchSatterthwaite } from './welchSatterthwaite.js';
export { type WeightedMean, weightedMean } from './weightedMean.js';
export { autocorrelation } from './autocorrelation.js';
export { type CochranResult, cochran } from './cochran.js';
export { cochranCritical } from './cochranCritical.js';
export { type Comparison, compareTwo } from './compareTwo.js';
export {
  type Conformity,
  type ConformityInput,
  conformity,
  type LimitRange,
  type LimitRule,
} from './conformity.js';
export { type Consistency, consistencyTest } from './consistencyTest.js';
export { type ExpandedResult, enNumber, type Score } from './enNumber.js';
export { fCdf } from './fCdf.js';
export { fQuantile } from './fQuantile.js';
export { type GrubbsResult, grubbs } from './grubbs.js';
export { type GrubbsSides, grubbsCritical } from './grubbsCritical.js';
export { holm } from './holm.js';
export { type MandelResult, mandel } from './mandel.js';
export { mandelCritical } from './mandelCritical.js';
export { type MeanSquare, type OneWayAnova, oneWayAnova } from './oneWayAnova.js';
export {
  type RankedPair,
  type RankedResult,
  type Ranking,
  type ResultsToRank,
  rankIntervals,
} from './rankIntervals.js';
export { type StandardResult, zetaScore } from './zetaScore.js';
