import type { Quantity } from '../Quantity.js';
import { cosineOf } from './elementary.js';
import { polynomialAt } from './kernels.js';
import type { ChebyshevSeries } from './Program.js';

/**
 * The polynomial that stands for a smooth function of a graph in its first input, the others at the estimate: the
 * interpolation at the Chebyshev points of the first kind, in ascending powers of the variable mapped to −1 to 1. Null where it
 * misses the function by more than the node allows at any of 4 points for each of its own, or where the
 * function can't be had over the whole range.
 */
export function chebyshevSeries(node: Quantity): ChebyshevSeries | null {
  const { low, high, degree, tolerance } = node.smooth as NonNullable<Quantity['smooth']>;
  const others = node.inputs.slice(1).map((input) => input.value);
  const evaluate = node.evaluate as NonNullable<Quantity['evaluate']>;
  const at = (z: number) => evaluate([low + ((z + 1) / 2) * (high - low), ...others]);
  try {
    const coefficients = Float64Array.from(toPowers(chebyshevCoefficients(at, degree)));
    const slope = (z: number) => (2 / (high - low)) * derivativeAt(coefficients, z);
    const points = 4 * (degree + 1);
    for (let i = 0; i <= points; i++) {
      const z = (2 * i) / points - 1;
      if (!(Math.abs(polynomialAt(coefficients, z) - at(z)) <= tolerance)) return null;
    }
    return { low, high, coefficients, slopeAtLow: slope(-1), slopeAtHigh: slope(1) };
  } catch {
    return null;
  }
}

function chebyshevCoefficients(at: (z: number) => number, degree: number): number[] {
  const n = degree + 1;
  const values = Array.from({ length: n }, (_, k) => at(cosineOf((Math.PI * (k + 0.5)) / n)));
  return Array.from({ length: n }, (_, j) => {
    const sum = values.reduce((s, value, k) => s + value * cosineOf((Math.PI * j * (k + 0.5)) / n), 0);
    return ((j === 0 ? 1 : 2) / n) * sum;
  });
}

/** Σ c_j T_j(z) in powers of z, by the recurrence T_(j+1) = 2 z T_j − T_(j−1). */
function toPowers(chebyshev: readonly number[]): number[] {
  const n = chebyshev.length;
  const result = new Array<number>(n).fill(0);
  let before = new Array<number>(n).fill(0);
  let current = new Array<number>(n).fill(0);
  current[0] = 1;
  chebyshev.forEach((coefficient, j) => {
    current.forEach((term, i) => {
      result[i]! += coefficient * term;
    });
    const factor = j === 0 ? 1 : 2;
    const next = current.map((_, i) => factor * (current[i - 1] ?? 0) - (before[i] as number));
    before = current;
    current = next;
  });
  return result;
}

function derivativeAt(coefficients: Float64Array, z: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 1; i--) sum = sum * z + i * (coefficients[i] as number);
  return sum;
}
