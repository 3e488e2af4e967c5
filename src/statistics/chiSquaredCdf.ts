import { problem } from '../errors/index.js';
import { checkDegreesOfFreedom } from './distributionArguments.js';
import { incompleteGamma } from './incompleteGamma.js';

/**
 * Distribution function of the chi-squared distribution with any finite number of degrees of freedom above zero.
 *
 * Formula: P(ν/2, x/2), the regularised incomplete gamma function. Source: NIST DLMF 8.2.4; checked against mpmath.
 *
 * @throws `degrees-of-freedom-bad`, `degrees-of-freedom-infinite`
 * @example
 * chiSquaredCdf(5.991464547107979, 2) // => 0.95
 */
export function chiSquaredCdf(x: number, degreesOfFreedom: number): number {
  checkChiSquared(degreesOfFreedom);
  return incompleteGamma(degreesOfFreedom / 2, x / 2).lower;
}

/** Throws unless 0 < ν < Infinity. */
export function checkChiSquared(degreesOfFreedom: number): void {
  checkDegreesOfFreedom(degreesOfFreedom, 'chi-squared distribution');
  if (degreesOfFreedom === Number.POSITIVE_INFINITY)
    throw problem('degrees-of-freedom-infinite', { source: 'chi-squared distribution' });
}
