import { norm } from './norm.js';
import type { Decomposition } from './singularValues.js';

/** How close to the wanted length is close enough. Source: J. J. Moré, LNM 630 (1978) 105, who takes 0.1. */
const slack = 0.1;
const mostTurns = 60;

/**
 * Damping λ ≥ 0 at which the step z = V·diag(s/(s² + λ))·c is no longer than `radius`: 0 where the undamped
 * step is short enough. Hebden's iteration inside a bracket. Source: Moré (1978), section 5.
 */
export function dampingFor(svd: Decomposition, c: ArrayLike<number>, radius: number, cutoff: number): number {
  if (norm(coordinates(svd, c, 0, cutoff)) <= radius * (1 + slack)) return 0;
  let low = 0;
  let high = norm(svd.s.map((s, i) => s * c[i]!)) / radius;
  let damping = high / 1000;
  for (let turn = 0; turn < mostTurns; turn += 1) {
    const z = coordinates(svd, c, damping, cutoff);
    const length = norm(z);
    if (Math.abs(length - radius) <= slack * radius) return damping;
    if (length > radius) low = damping;
    else high = damping;
    const slope = svd.s.reduce((sum, s, i) => sum + z[i]! ** 2 / (s * s + damping), 0);
    damping += ((length - radius) / radius) * (length ** 2 / slope);
    if (!(damping > low && damping < high)) damping = low > 0 ? Math.sqrt(low * high) : high / 1000;
  }
  return high;
}

/** The step in the coordinates of V; directions weaker than the cutoff are left alone when there is no damping. */
export function coordinates(
  svd: Decomposition,
  c: ArrayLike<number>,
  damping: number,
  cutoff: number,
): Float64Array {
  return Float64Array.from(svd.s, (s, i) => {
    if (damping > 0) return (s * c[i]!) / (s * s + damping);
    return s > cutoff * svd.s[0]! ? c[i]! / s : 0;
  });
}
