import { Matrix, SingularValueDecomposition } from 'ml-matrix';

/** Thin decomposition A = U·diag(s)·Vᵀ of a small matrix. */
export interface Decomposition {
  /** Largest first. */
  readonly s: readonly number[];
  /** Uᵀ·vector. */
  left(vector: ArrayLike<number>): Float64Array;
  /** V·vector. */
  right(vector: ArrayLike<number>): Float64Array;
  /** Column of V that belongs to the smallest singular value. */
  readonly weakest: readonly number[];
}

/** Singular values of a finite matrix with at least as many rows as columns, given column by column. */
export function singularValues(a: ArrayLike<number>, rows: number, columns: number): Decomposition {
  const matrix = new Matrix(rows, columns);
  for (let j = 0; j < columns; j += 1) for (let i = 0; i < rows; i += 1) matrix.set(i, j, a[j * rows + i]!);
  const svd = new SingularValueDecomposition(matrix);
  const u = svd.leftSingularVectors;
  const v = svd.rightSingularVectors;
  const product = (
    outer: number,
    inner: number,
    entry: (i: number, k: number) => number,
    x: ArrayLike<number>,
  ) => {
    const result = new Float64Array(outer);
    for (let i = 0; i < outer; i += 1) for (let k = 0; k < inner; k += 1) result[i]! += entry(i, k) * x[k]!;
    return result;
  };
  return {
    s: svd.diagonal,
    left: (x) => product(columns, rows, (i, k) => u.get(k, i), x),
    right: (x) => product(columns, columns, (i, k) => v.get(i, k), x),
    weakest: Array.from({ length: columns }, (_, i) => v.get(i, columns - 1)),
  };
}
