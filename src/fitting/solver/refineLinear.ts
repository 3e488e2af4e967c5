import { doubledDot } from './doubled.js';
import { norm } from './norm.js';
import { triangularise } from './triangularise.js';

const rounds = 5;

/**
 * Improves the solution b of a linear least-squares problem by solving for the error of b and of its residuals, which
 * are computed with twice the digits, again and again. The columns must be independent.
 * Source: Å. Björck, BIT 7 (1967) 257.
 */
export function refineLinear(
  columns: readonly Float64Array[],
  y: Float64Array,
  first: Float64Array,
): Float64Array {
  const [rows, size] = [y.length, columns.length];
  // Powers of two scale without rounding.
  const scales = columns.map((column) => 2 ** -Math.round(Math.log2(norm(column))));
  const scaled = columns.map((column, j) => column.map((value) => value * scales[j]!));
  const lines = Array.from(y, (_, i) => Float64Array.from(scaled, (column) => -column[i]!));
  const packed = new Float64Array(rows * size);
  scaled.forEach((column, j) => {
    packed.set(column, j * rows);
  });
  const factor = triangularise(packed, rows, size);
  const b = first.map((value, j) => value / scales[j]!);
  const residuals = y.map((value, i) => doubledDot(value, lines[i]!, b));
  for (let round = 0; round < rounds; round += 1) {
    const gap = y.map((value, i) =>
      doubledDot(value, Float64Array.of(1, ...lines[i]!), Float64Array.of(-residuals[i]!, ...b)),
    );
    const slope = scaled.map((column) => -doubledDot(0, column, residuals));
    factor.reflect(gap);
    const along = solveLower(factor.r, size, slope);
    const step = solveUpper(
      factor.r,
      size,
      along.map((value, j) => gap[j]! - value),
    );
    gap.set(along);
    factor.unreflect(gap);
    step.forEach((value, j) => {
      b[j]! += value;
    });
    gap.forEach((value, i) => {
      residuals[i]! += value;
    });
  }
  return b.map((value, j) => value * scales[j]!);
}

/** Solves Rᵀx = v for the upper triangle R, column by column. */
function solveLower(r: Float64Array, size: number, v: ArrayLike<number>): Float64Array {
  const x = new Float64Array(size);
  for (let i = 0; i < size; i += 1) {
    let sum = v[i]!;
    for (let k = 0; k < i; k += 1) sum -= r[i * size + k]! * x[k]!;
    x[i] = sum / r[i * size + i]!;
  }
  return x;
}

/** Solves Rx = v. */
function solveUpper(r: Float64Array, size: number, v: ArrayLike<number>): Float64Array {
  const x = new Float64Array(size);
  for (let i = size - 1; i >= 0; i -= 1) {
    let sum = v[i]!;
    for (let k = i + 1; k < size; k += 1) sum -= r[k * size + i]! * x[k]!;
    x[i] = sum / r[i * size + i]!;
  }
  return x;
}
