import { problem } from '../errors/index.js';
import { checkDegreesOfFreedom } from './distributionArguments.js';
import { fTails } from './fTails.js';

/**
 * Distribution function of the F distribution, any degrees of freedom above zero, fractional ones too, Infinity
 * allowed for either.
 *
 * Formula: I_y(ν₁/2, ν₂/2) with y = ν₁x/(ν₁x + ν₂). Source: NIST DLMF 8.17; checked against mpmath.
 *
 * @throws `degrees-of-freedom-bad`; `value-not-finite` where x is no number
 * @example
 * fCdf(1, 7, 7) // => 0.5
 * fCdf(2.124029264017, 9, 40) // => 0.95
 */
export function fCdf(x: number, numeratorDegrees: number, denominatorDegrees: number): number {
  checkFDegrees(numeratorDegrees, denominatorDegrees);
  if (Number.isNaN(x)) throw problem('value-not-finite', { what: 'The argument of F', got: 'NaN' });
  return fTails(x, numeratorDegrees, denominatorDegrees).lower;
}

/** Throws unless both degrees of freedom are above zero. */
export function checkFDegrees(numeratorDegrees: number, denominatorDegrees: number): void {
  checkDegreesOfFreedom(numeratorDegrees, 'F distribution, numerator');
  checkDegreesOfFreedom(denominatorDegrees, 'F distribution, denominator');
}
