import type { Point, Task } from './Task.js';

/** Evaluates the model at p, and the weighted Jacobian where there is room for it: all of it, or the columns named. */
export function pointAt(
  task: Task,
  p: Float64Array,
  jacobian: Float64Array | null,
  columns?: readonly number[],
): Point {
  const { y, rootWeights } = task;
  const rows = y.length;
  const residuals = new Float64Array(rows);
  task.evaluate(p, residuals, jacobian, columns);
  let squares = 0;
  for (let i = 0; i < rows; i += 1) {
    residuals[i] = (y[i]! - residuals[i]!) * (rootWeights === null ? 1 : rootWeights[i]!);
    squares += residuals[i]! ** 2;
  }
  if (jacobian !== null && rootWeights !== null)
    for (let k = 0; k < jacobian.length; k += 1) jacobian[k]! *= rootWeights[k % rows]!;
  return { p, residuals, squares: Number.isFinite(squares) ? squares : Number.POSITIVE_INFINITY };
}

/** Whether the entries of a Jacobian are finite and can be squared. */
export function isUsable(jacobian: Float64Array): boolean {
  let sum = 0;
  for (let i = 0; i < jacobian.length; i += 1) sum += jacobian[i]! ** 2;
  return Number.isFinite(sum);
}
