import { problem } from '../errors/index.js';
import { cochranCritical } from './cochranCritical.js';
import { checkFinite } from './distributionArguments.js';
import { fTails } from './fTails.js';

/** What Cochran's test says of the largest variance. */
export interface CochranResult {
  /** The largest variance over the sum of all. */
  readonly statistic: number;
  readonly critical: number;
  /** The p value is no larger than this. */
  readonly pValueBound: number;
  /** Place of the largest variance, from 0. */
  readonly suspectedIndex: number;
  readonly outlying: boolean;
}

/**
 * Cochran's test: is the largest of several variances, each from the same number of values, too large to belong?
 *
 * Formula: C = max s²/Σs². Source: ISO 5725-2:1994, 7.3.3.
 *
 * @throws `too-few-groups`; `count-bad`; `significance-bad`; `value-not-finite`; `group-variance-negative`;
 *   `values-all-same` where all are zero
 * @example
 * cochran({ variances: [1, 1.2, 0.9, 6, 1.1], replicates: 3, significance: 0.05 }).statistic // => 0.588235
 */
export function cochran(input: {
  readonly variances: readonly number[];
  readonly replicates: number;
  readonly significance: number;
}): CochranResult {
  const { variances, replicates, significance } = input;
  const groups = variances.length;
  if (groups < 2) throw problem('too-few-groups', { what: "Cochran's test", got: groups, needed: 2 });
  const critical = cochranCritical(groups, replicates, significance);
  variances.forEach((variance, j) => {
    checkFinite(variance, `The variance of group ${j + 1}`);
    if (variance < 0) throw problem('group-variance-negative', { group: j + 1, got: String(variance) });
  });
  const largest = Math.max(...variances);
  if (largest === 0) throw problem('values-all-same', { what: "Cochran's test", got: '0' });
  const suspectedIndex = variances.indexOf(largest);
  const others = variances.reduce((sum, v, j) => (j === suspectedIndex ? sum : sum + v / largest), 0);
  const statistic = 1 / (1 + others);
  const within = replicates - 1;
  const tail = fTails((groups - 1) / others, within, (groups - 1) * within).upper;
  return {
    statistic,
    critical,
    pValueBound: Math.min(1, groups * tail),
    suspectedIndex,
    outlying: statistic > critical,
  };
}
