import { problem } from '../errors/index.js';
import { checkSignificance } from './distributionArguments.js';
import { fQuantile } from './fQuantile.js';

/**
 * Critical value of Cochran's test: how large a share of the sum of `groups` variances, each of `replicates` values, the
 * largest may be.
 *
 * Formula: C = 1/(1 + (p − 1)/F), F the upper α/p quantile with n − 1 and (p − 1)(n − 1) degrees of freedom. Source:
 * R. U. E. 't Lam, Anal. Chim. Acta 659 (2010) 68; table 4 of ISO 5725-2:1994.
 *
 * @throws `count-bad` for fewer than two groups or replicates; `significance-bad`
 * @example
 * cochranCritical(5, 3, 0.05) // => 0.68377
 */
export function cochranCritical(groups: number, replicates: number, significance: number): number {
  checkGroupCounts(groups, replicates, 2);
  checkSignificance(significance);
  const within = replicates - 1;
  const F = fQuantile(1 - significance / groups, within, (groups - 1) * within);
  return 1 / (1 + (groups - 1) / F);
}

/** Throws unless both are whole numbers, at least `leastGroups` and 2. */
export function checkGroupCounts(groups: number, replicates: number, leastGroups: number): void {
  if (!(Number.isInteger(groups) && groups >= leastGroups))
    throw problem('count-bad', { what: 'The number of groups', needed: leastGroups, got: String(groups) });
  if (!(Number.isInteger(replicates) && replicates >= 2))
    throw problem('count-bad', {
      what: 'The number of values in a group',
      needed: 2,
      got: String(replicates),
    });
}
