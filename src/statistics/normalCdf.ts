import { normalTail } from './normalTail.js';

/**
 * Distribution function Φ(z) of the standard normal distribution, to about 1e-15 relative, both tails.
 *
 * Source: checked against 40-digit values of mpmath.
 *
 * @example
 * normalCdf(1.959963984540054) // => 0.975
 * normalCdf(0) // => 0.5
 */
export function normalCdf(z: number): number {
  return normalTail(-z);
}
