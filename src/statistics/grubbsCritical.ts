import { problem } from '../errors/index.js';
import { checkSignificance } from './distributionArguments.js';
import { studentQuantile } from './studentQuantile.js';

/** Whether the highest value, the lowest, or the one farther from the mean is under suspicion. */
export type GrubbsSides = 'one-high' | 'one-low' | 'two';

/**
 * Critical value of Grubbs' test for one outlier among n values, computed from t, without a table.
 *
 * Formula: G = (n − 1)/√n·√(t²/(n − 2 + t²)), t the upper α/n quantile (one-sided) or α/(2n) quantile (two-sided)
 * with n − 2 degrees of freedom. Exact as long as no two values can exceed G together, at 5 % up to n = 14 (one-sided)
 * and n = 13 (two-sided); beyond that the true significance is slightly smaller. Source: F. E. Grubbs, Technometrics 11
 * (1969) 1; NIST/SEMATECH e-Handbook 1.3.5.17. The table of ISO 5725-2 holds the two-sided values.
 *
 * @throws `count-bad` for n below 3; `significance-bad`
 * @example
 * grubbsCritical(10, 0.05, 'two') // => 2.28995
 * grubbsCritical(10, 0.05, 'one-high') // => 2.17607
 */
export function grubbsCritical(n: number, significance: number, sides: GrubbsSides): number {
  if (!(Number.isInteger(n) && n >= 3))
    throw problem('count-bad', { what: "The number of values of Grubbs' test", needed: 3, got: String(n) });
  checkSignificance(significance);
  const tail = significance / n / (sides === 'two' ? 2 : 1);
  const t = -studentQuantile(tail, n - 2);
  return ((n - 1) / Math.sqrt(n)) * Math.sqrt(1 / ((n - 2) / t / t + 1));
}
