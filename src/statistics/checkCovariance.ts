import { problem } from '../errors/index.js';

/** Relative room for rounding in sums that make up a covariance. */
const rounding = 1e-9;

/** Throws unless the matrix is n by n, finite, symmetric and positive semidefinite up to rounding. */
export function checkCovariance(matrix: readonly (readonly number[])[], n: number): void {
  const bad = (why: string) => problem('covariance-bad', { why });
  if (matrix.length !== n || matrix.some((row) => row.length !== n))
    throw bad(`${n} rows of ${n} entries are needed for ${n} results`);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j < n; j += 1) {
      const entry = matrix[i]![j]!;
      const where = `entry ${i + 1}, ${j + 1}`;
      if (!Number.isFinite(entry)) throw bad(`${where} is ${entry}`);
      if (i === j && entry < 0) throw bad(`variance ${i + 1} is ${entry}, and none can be negative`);
      const most = Math.sqrt(Math.abs(matrix[i]![i]!)) * Math.sqrt(Math.abs(matrix[j]![j]!));
      if (Math.abs(entry - matrix[j]![i]!) > rounding * most)
        throw bad(`${where} is not that of its mirror image`);
      if (Math.abs(entry) > most * (1 + rounding))
        throw bad(`${where} is ${entry}, which would be a correlation beyond 1`);
    }
  }
  if (!isSemidefinite(matrix)) throw bad('it gives some combination of the results a negative variance');
}

/** Cholesky's method on the correlation matrix, always going on with the largest variance left. */
function isSemidefinite(matrix: readonly (readonly number[])[]): boolean {
  const scale = matrix.map((row, i) => Math.sqrt(row[i]!) || 1);
  const left = matrix.map((row, i) => row.map((entry, j) => entry / scale[i]! / scale[j]!));
  const open = new Set(left.keys());
  while (open.size > 0) {
    const pivot = [...open].reduce((best, i) => (left[i]![i]! > left[best]![best]! ? i : best));
    const variance = left[pivot]![pivot]!;
    if (variance <= rounding) {
      // What is left must be zero up to rounding, and its covariances too.
      return [...open].every((i) => [...open].every((j) => Math.abs(left[i]![j]!) <= rounding * left.length));
    }
    open.delete(pivot);
    for (const i of open)
      for (const j of open) left[i]![j]! -= (left[i]![pivot]! / variance) * left[pivot]![j]!;
  }
  return true;
}
