import type { FirstOrderSums } from './firstOrderPass.js';
import { type Moments, terms } from './momentsOf.js';

/**
 * The same as `firstOrderPass`, segment by segment instead of node by node: the response to power and ambient within a
 * segment is a power series in −(b − b₀) whose coefficients don't depend on any parameter.
 */
export function momentPass(
  { nearRate, segments: { block, lengthS }, reading, power, ambient }: Moments,
  a: number,
  b: number,
  startK: number,
  { predicted, byHeating, byLoss, byStart }: FirstOrderSums,
): void {
  const m = nearRate - b;
  let x = startK;
  let byA = 0;
  let byB = 0;
  let by0 = 1;
  let length = Number.NaN;
  let decay = 1;
  for (let s = 0; s < block.length; s += 1) {
    const at = s * terms;
    const k = block[s]!;
    if (k >= 0) {
      const own = value(reading, at, m);
      let sum = own * x;
      let sumB = own * byB - slope(reading, at, m) * x;
      if (power !== null) {
        const driven = value(power.mean, at, m);
        sum += a * driven;
        sumB -= a * slope(power.mean, at, m);
        if (byHeating !== null) byHeating[k]! += own * byA + driven;
      }
      if (ambient !== null) {
        const driven = value(ambient.mean, at, m);
        sum += b * driven;
        sumB += driven - b * slope(ambient.mean, at, m);
      }
      predicted[k]! += sum;
      if (byLoss !== null) {
        byLoss[k]! += sumB;
        byStart![k]! += own * by0;
      }
    }
    if (lengthS[s]! !== length) {
      length = lengthS[s]!;
      decay = Math.exp(-b * length);
    }
    byB = decay * (byB - length * x);
    x *= decay;
    by0 *= decay;
    byA *= decay;
    if (power !== null) {
      const driven = value(power.end, at, m);
      x += a * driven;
      byB -= a * slope(power.end, at, m);
      byA += driven;
    }
    if (ambient !== null) {
      const driven = value(ambient.end, at, m);
      x += b * driven;
      byB += driven - b * slope(ambient.end, at, m);
    }
  }
}

/** Σ cₖ·mᵏ, c from `at` on. */
function value(c: Float64Array, at: number, m: number): number {
  return (((c[at + 4]! * m + c[at + 3]!) * m + c[at + 2]!) * m + c[at + 1]!) * m + c[at]!;
}

/** Its derivative by m. */
function slope(c: Float64Array, at: number, m: number): number {
  return ((4 * c[at + 4]! * m + 3 * c[at + 3]!) * m + 2 * c[at + 2]!) * m + c[at + 1]!;
}
