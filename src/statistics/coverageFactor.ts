import { checkCoverage, checkDegreesOfFreedom } from './distributionArguments.js';
import { studentQuantile } from './studentQuantile.js';

/**
 * Two-sided coverage factor: the k for which ±k standard uncertainties hold the share `coverage` of a t
 * distribution with the given degrees of freedom. Fractional degrees of freedom go into the quantile as they
 * are, without truncation; Infinity gives the normal distribution.
 *
 * Formula: k = t((1 + coverage)/2, ν). Source: JCGM 100:2008, G.3.2 and table G.2.
 *
 * @throws `coverage-bad` unless 0 < coverage < 1; `degrees-of-freedom-bad` unless ν > 0
 * @example
 * coverageFactor(0.95, 19) // => 2.09302405
 * coverageFactor(0.95, Infinity) // => 1.95996398
 */
export function coverageFactor(coverage: number, degreesOfFreedom: number): number {
  checkCoverage(coverage);
  checkDegreesOfFreedom(degreesOfFreedom, 'coverage factor');
  return -studentQuantile((1 - coverage) / 2, degreesOfFreedom);
}
