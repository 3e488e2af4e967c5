import { checkProbability } from './distributionArguments.js';
import { normalDensity, normalMiddle, normalTail } from './normalTail.js';

/**
 * Quantile of the standard normal distribution: the z with Φ(z) = p. 0 gives −Infinity, 1 gives Infinity.
 *
 * A rational start (Abramowitz and Stegun 26.2.23) polished by Halley steps on the nearer tail; near the middle
 * on Φ(z) − 1/2, so that small z keep their digits.
 *
 * @throws `probability-bad` unless 0 <= p <= 1
 * @example
 * normalQuantile(0.975) // => 1.959963984540
 * normalQuantile(0.5) // => 0
 */
export function normalQuantile(p: number): number {
  checkProbability(p);
  if (p === 0) return Number.NEGATIVE_INFINITY;
  if (p === 1) return Number.POSITIVE_INFINITY;
  if (Math.abs(p - 0.5) < 0.1) return middle(p - 0.5);
  return p < 0.5 ? -upper(p) : upper(1 - p);
}

function upper(tail: number): number {
  const s = Math.sqrt(-2 * Math.log(tail));
  let z =
    s - (2.515517 + s * (0.802853 + s * 0.010328)) / (1 + s * (1.432788 + s * (0.189269 + s * 0.001308)));
  for (let step = 0; step < 3; step += 1) z = halley(z, normalTail(z) / tail - 1, tail);
  return z;
}

/** One Halley step for the tail; the normal density's slope is −z times itself. */
function halley(z: number, relativeError: number, tail: number): number {
  const newton = (relativeError * tail) / normalDensity(z);
  return z + newton / (1 + (z * newton) / 2);
}

function middle(excess: number): number {
  const size = Math.abs(excess);
  let z = size * Math.sqrt(2 * Math.PI);
  for (let step = 0; step < 5; step += 1) z -= (normalMiddle(z) - size) / normalDensity(z);
  return excess < 0 ? -z : z;
}
