import { checkDegreesOfFreedom, checkProbability } from './distributionArguments.js';
import { findRoot } from './findRoot.js';
import { deviance, stirlingError } from './gammaParts.js';
import { normalQuantile } from './normalQuantile.js';
import { studentTails } from './studentTails.js';

const logSmallest = -744;
const logLargest = 709.7;

/**
 * Quantile of Student's t distribution: the t with P(T <= t) = p, for any degrees of freedom above zero,
 * fractional ones too; Infinity gives the normal quantile. A quantile too large for a double is ±Infinity.
 *
 * Newton steps for log t on the logarithm of the nearer of tail and middle, kept in a bracket: good to 13 digits
 * from 0.5 to beyond 1e4 degrees of freedom. Source: checked against 40-digit values of mpmath.
 *
 * @throws `probability-bad`, `degrees-of-freedom-bad`
 * @example
 * studentQuantile(0.975, 2.5) // => 3.574654842004
 * studentQuantile(0.025, 10) // => -2.2281388519863
 */
export function studentQuantile(p: number, degreesOfFreedom: number): number {
  checkProbability(p);
  checkDegreesOfFreedom(degreesOfFreedom, 't distribution');
  if (p === 0.5) return 0;
  if (degreesOfFreedom === Number.POSITIVE_INFINITY || p === 0 || p === 1) return normalQuantile(p);
  const size = positiveQuantile(Math.min(p, 1 - p), Math.abs(p - 0.5), degreesOfFreedom);
  return p < 0.5 ? -size : size;
}

function positiveQuantile(tail: number, middle: number, nu: number): number {
  if (studentTails(Number.MAX_VALUE, nu).beyond > tail) return Number.POSITIVE_INFINITY;
  const useMiddle = middle < 0.25;
  const at = (logT: number) => {
    const t = Math.exp(logT);
    const { beyond, inside } = studentTails(t, nu);
    const rise = t * density(t, nu);
    return useMiddle
      ? { value: Math.log(inside / middle), slope: rise / inside }
      : { value: -Math.log(beyond / tail), slope: rise / beyond };
  };
  return Math.exp(findRoot(at, [logSmallest, logLargest], Math.log(Math.abs(normalQuantile(tail)))));
}

/** Γ((ν + 1)/2)/(√(νπ)·Γ(ν/2))·(1 + t²/ν)^(−(ν + 1)/2); only the speed of the search depends on it. */
function density(t: number, nu: number): number {
  const a = nu / 2;
  const b = a + 0.5;
  const logRatio =
    stirlingError(b) - stirlingError(a) - b * deviance(a / b, -0.5 / b) + 0.5 * Math.log(a / b);
  const logKernel = -b * Math.log1p((t / nu) * t);
  return Math.exp(logRatio + logKernel + 0.5 * Math.log(b / nu / Math.PI));
}
