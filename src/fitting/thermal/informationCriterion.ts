import type { Problem } from '../Problem.js';

/**
 * Akaike's criterion with the correction for few data, for a fit whose errors are autocorrelated: −2·ln L + 2k·N/(N − k − 1),
 * with −2·ln L = N·ln(2π·RSS/N) + N + ln of the determinant of the correlation, and k = parameters + 2 for the variance and ρ.
 * Source: K. P. Burnham, D. R. Anderson, Model Selection and Multimodel Inference (2002), section 2.4, from memory.
 */
export function informationCriterion(
  residualSumOfSquares: number,
  { points, parameters }: Problem,
  rho: number,
  gaps: Int32Array,
): number {
  const k = parameters + 2;
  // Whitening divides by the innovations: the determinant is that of its steps, in units of the first.
  let logDeterminant = -Math.log(1 - rho * rho);
  for (let i = 1; i < points; i += 1)
    if (gaps[i]! > 1) logDeterminant += Math.log((1 - rho ** (2 * gaps[i]!)) / (1 - rho * rho));
  const deviance = points * (Math.log((2 * Math.PI * residualSumOfSquares) / points) + 1) + logDeterminant;
  return points > k + 1 ? deviance + (2 * k * points) / (points - k - 1) : Number.POSITIVE_INFINITY;
}
