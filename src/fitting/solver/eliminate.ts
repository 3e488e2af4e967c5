import { coordinates } from './damped.js';
import { isUsable, pointAt } from './pointAt.js';
import { norm } from './norm.js';
import { singularValues } from './singularValues.js';
import type { Point, Task } from './Task.js';
import { triangularise } from './triangularise.js';

/**
 * The point at p with its linear parameters set to their best values, whatever they were. Without linear
 * parameters the point at p. Source: G. H. Golub, V. Pereyra, SIAM J. Numer. Anal. 10 (1973) 413.
 */
export function eliminate(task: Task, p: Float64Array): Point {
  const { linear, y } = task;
  if (linear.length === 0) return pointAt(task, p, null);
  const rows = y.length;
  const raw = new Float64Array(rows * p.length);
  const given = pointAt(task, p, raw, linear);
  if (given.squares === Number.POSITIVE_INFINITY) return given;
  const columns = new Float64Array(rows * linear.length);
  const sizes = linear.map((j, k) => {
    const column = raw.subarray(j * rows, (j + 1) * rows);
    const size = norm(column) || 1;
    columns.set(
      column.map((value) => value / size),
      k * rows,
    );
    return size;
  });
  if (!isUsable(columns)) return { ...given, squares: Number.POSITIVE_INFINITY };
  const factor = triangularise(columns, rows, linear.length);
  factor.reflect(given.residuals);
  const svd = singularValues(factor.r, linear.length, linear.length);
  const change = svd.right(coordinates(svd, svd.left(given.residuals), 0, task.blindness));
  const best = p.slice();
  linear.forEach((j, k) => {
    best[j]! += change[k]! / sizes[k]!;
  });
  return pointAt(task, best, null);
}
