import { checkDegreesOfFreedom } from './distributionArguments.js';
import { studentTails } from './studentTails.js';

/**
 * Distribution function of Student's t distribution, any number of degrees of freedom above zero, fractional
 * ones too; Infinity gives the normal distribution.
 *
 * Formula: 1 − I_x(ν/2, 1/2)/2 with x = ν/(ν + t²) for t > 0. Source: NIST DLMF 8.17; checked against mpmath.
 *
 * @throws `degrees-of-freedom-bad` unless ν > 0
 * @example
 * studentCdf(1, 1) // => 0.75
 * studentCdf(-2.2281388519863, 10) // => 0.025000000000
 */
export function studentCdf(t: number, degreesOfFreedom: number): number {
  checkDegreesOfFreedom(degreesOfFreedom, 't distribution');
  if (t < 0) return studentTails(-t, degreesOfFreedom).beyond;
  const { beyond, inside } = studentTails(t, degreesOfFreedom);
  return beyond < 0.25 ? 1 - beyond : 0.5 + inside;
}
