import type { Task } from './Task.js';

/** Decades on each side of the start, in turn. */
const decades = [0.3, 1, 2, 4];
const primes = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29];

/**
 * Other starts about the first, always the same ones: each nonlinear parameter times a power of ten, the powers spread
 * evenly (J. H. Halton, Numer. Math. 2 (1960) 84) over more and more decades. A start of zero, which has no size, becomes a
 * number of either sign.
 */
export function elsewhere(task: Task, start: Float64Array, count: number): Float64Array[] {
  return Array.from({ length: count }, (_, i) => {
    const p = start.slice();
    const spread = decades[i % decades.length]!;
    task.nonlinear.forEach((j, k) => {
      const side = 2 * halton(1 + i, primes[k % primes.length]!) - 1;
      const value = p[j] === 0 ? (side * 10 ** spread) / 10 : p[j]! * 10 ** (spread * side);
      p[j] = Math.min(task.upper[j]!, Math.max(task.lower[j]!, value));
    });
    return p;
  });
}

/** Digits of the index, mirrored at the point. */
function halton(index: number, base: number): number {
  let value = 0;
  for (let rest = index, part = 1 / base; rest > 0; rest = Math.floor(rest / base), part /= base)
    value += part * (rest % base);
  return value;
}
