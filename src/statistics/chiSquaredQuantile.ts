import { checkChiSquared } from './chiSquaredCdf.js';
import { checkProbability } from './distributionArguments.js';
import { findRoot } from './findRoot.js';
import { deviance, stirlingError } from './gammaParts.js';
import { incompleteGamma } from './incompleteGamma.js';
import { normalQuantile } from './normalQuantile.js';

const logSmallest = -744;

/**
 * Quantile of the chi-squared distribution: the x with P(X <= x) = p, for any finite number of degrees of freedom
 * above zero, fractional ones too. A quantile too small for a double is 0.
 *
 * Newton steps for log x on the logarithm of the nearer tail, kept in a bracket: good to 13 digits from 0.5 to
 * beyond 1e4 degrees of freedom. Source: checked against 40-digit values of mpmath.
 *
 * @throws `probability-bad`, `degrees-of-freedom-bad`, `degrees-of-freedom-infinite`
 * @example
 * chiSquaredQuantile(0.95, 1) // => 3.8414588206941
 * chiSquaredQuantile(0.5, 2) // => 1.3862943611199
 */
export function chiSquaredQuantile(p: number, degreesOfFreedom: number): number {
  checkProbability(p);
  checkChiSquared(degreesOfFreedom);
  if (p === 0) return 0;
  if (p === 1) return Number.POSITIVE_INFINITY;
  const a = degreesOfFreedom / 2;
  if (incompleteGamma(a, Number.MIN_VALUE).lower > p) return 0;
  const at = (logX: number) => {
    const x = Math.exp(logX);
    const { lower, upper } = incompleteGamma(a, x);
    const rise = timesDensity(a, x);
    return p <= 0.5
      ? { value: Math.log(lower / p), slope: rise / lower }
      : { value: -Math.log(upper / (1 - p)), slope: rise / upper };
  };
  const most = Math.log(Math.max(1e4, 4 * a));
  return 2 * Math.exp(findRoot(at, [logSmallest, most], start(p, a)));
}

/** Wilson and Hilferty's cube root where it is positive, otherwise the leading power of the lower tail. */
function start(p: number, a: number): number {
  const root = 1 - 1 / (9 * a) + normalQuantile(p) / Math.sqrt(9 * a);
  if (root > 0.1) return Math.log(a) + 3 * Math.log(root);
  return (Math.log(p) + stirlingError(a) + 0.5 * Math.log(2 * Math.PI * a) + a * Math.log(a) - a) / a;
}

/** x times the density of the gamma distribution with shape a, x^a·e^(−x)/Γ(a). */
function timesDensity(a: number, x: number): number {
  return Math.exp(-stirlingError(a) - a * deviance(x / a, (x - a) / a)) * Math.sqrt(a / (2 * Math.PI));
}
