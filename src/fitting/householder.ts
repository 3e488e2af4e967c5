/** Least-squares solution with what its covariance needs. */
export interface LeastSquares {
  readonly solution: readonly number[];
  /** Inverse of the triangular factor R, by rows: (XᵀX)⁻¹ = R⁻¹R⁻ᵀ. */
  readonly inverseR: readonly (readonly number[])[];
  readonly residualSumOfSquares: number;
  /** The column that is a combination of those before it, or null where all are independent. */
  readonly dependentColumn: number | null;
}

const dependent = 1e-13;

/**
 * Minimises |y − Xβ|² by Householder reflections, X given by columns (at least as many rows as columns). Works in
 * copies. Source: G. H. Golub, Numer. Math. 7 (1965) 206.
 */
export function leastSquares(columns: readonly (readonly number[])[], y: readonly number[]): LeastSquares {
  const a = columns.map((column) => Float64Array.from(column));
  const r = Float64Array.from(y);
  const p = a.length;
  const originalNorms = a.map((column) => Math.sqrt(dot(column, column, 0)));
  let dependentColumn: number | null = null;
  for (let k = 0; k < p; k += 1) {
    const column = a[k]!;
    const norm = Math.sqrt(dot(column, column, k));
    if (dependentColumn === null && norm <= dependent * originalNorms[k]!) dependentColumn = k;
    const diagonal = column[k]! > 0 ? -norm : norm;
    const v = column.slice(k);
    v[0]! -= diagonal;
    const half = dot(v, v, 0) / 2;
    if (half > 0) for (const target of [...a.slice(k), r]) reflect(v, half, target.subarray(k));
  }
  const inverseR = invertTriangle(a);
  const solution = inverseR.map((row) => row.reduce((sum, value, j) => sum + value * r[j]!, 0));
  return { solution, inverseR, residualSumOfSquares: dot(r, r, p), dependentColumn };
}

function dot(a: Float64Array, b: Float64Array, from: number): number {
  let sum = 0;
  for (let i = from; i < a.length; i += 1) sum += a[i]! * b[i]!;
  return sum;
}

/** target − v·(v·target)/half, in place. */
function reflect(v: Float64Array, half: number, target: Float64Array): void {
  const factor = dot(v, target, 0) / half;
  for (let i = 0; i < v.length; i += 1) target[i]! -= factor * v[i]!;
}

/** Inverse of the upper triangle whose column j is a[j][0..j]. */
function invertTriangle(a: readonly Float64Array[]): number[][] {
  const p = a.length;
  const inverse = a.map(() => new Array<number>(p).fill(0));
  for (let j = 0; j < p; j += 1)
    for (let i = j; i >= 0; i -= 1) {
      let sum = i === j ? 1 : 0;
      for (let k = i + 1; k <= j; k += 1) sum -= a[k]![i]! * inverse[k]![j]!;
      inverse[i]![j] = sum / a[i]![i]!;
    }
  return inverse;
}
