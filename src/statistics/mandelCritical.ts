import { checkGroupCounts } from './cochranCritical.js';
import { checkSignificance } from './distributionArguments.js';
import { fQuantile } from './fQuantile.js';
import { studentQuantile } from './studentQuantile.js';

/**
 * Indicator values of Mandel's h (either sign) and k for p groups of n values each.
 *
 * Formula: h = (p − 1)t/√(p(p − 2 + t²)), t the upper α/2 quantile with p − 2 degrees of freedom;
 * k = √(pF/(p − 1 + F)), F the upper α quantile with n − 1 and (p − 1)(n − 1). Source: ISO 5725-2:1994, tables 6 and 7.
 *
 * @throws `count-bad` for fewer than three groups or two values; `significance-bad`
 * @example
 * mandelCritical(5, 3, 0.05) // => { h: 1.57122, k: 1.62347 }
 */
export function mandelCritical(
  groups: number,
  replicates: number,
  significance: number,
): { readonly h: number; readonly k: number } {
  checkGroupCounts(groups, replicates, 3);
  checkSignificance(significance);
  const t = -studentQuantile(significance / 2, groups - 2);
  const within = replicates - 1;
  const F = fQuantile(1 - significance, within, (groups - 1) * within);
  return {
    h: ((groups - 1) * t) / Math.sqrt(groups * (groups - 2 + t * t)),
    k: Math.sqrt((groups * F) / (groups - 1 + F)),
  };
}
