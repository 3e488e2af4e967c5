import { norm } from './norm.js';
import { pointAt, isUsable } from './pointAt.js';
import type { Point, Task } from './Task.js';
import { type Triangularised, triangularise } from './triangularise.js';

/** The model made linear about a point: |residuals − J·δ|² = |q − R·δ|² + rest, δ in `order`. */
export interface Linearised {
  /** Columns of R: the eliminated parameters first, then the others. */
  readonly order: readonly number[];
  readonly factor: Triangularised;
  /** First entries of Qᵀ·residuals. */
  readonly q: Float64Array;
  readonly rest: number;
  /** Columns of the weighted Jacobian as they came, by index of the parameter. */
  readonly norms: Float64Array;
  /** The weighted Jacobian in `order`, for second derivatives; null unless asked for. */
  readonly jacobian: Float64Array;
}

/** null where the derivatives are not finite. */
export function linearise(task: Task, point: Point): Linearised | null {
  const rows = task.y.length;
  const columns = point.p.length;
  const raw = new Float64Array(rows * columns);
  pointAt(task, point.p, raw);
  if (!isUsable(raw)) return null;
  const order = [...task.linear, ...task.nonlinear];
  const jacobian = new Float64Array(rows * columns);
  order.forEach((from, to) => {
    jacobian.set(raw.subarray(from * rows, (from + 1) * rows), to * rows);
  });
  const norms = new Float64Array(columns);
  for (let j = 0; j < columns; j += 1) norms[j] = norm(raw.subarray(j * rows, (j + 1) * rows));
  raw.set(jacobian);
  const factor = triangularise(raw, rows, columns);
  const turned = point.residuals.slice();
  factor.reflect(turned);
  const rest = norm(turned.subarray(columns)) ** 2;
  return { order, factor, q: turned.slice(0, columns), rest, norms, jacobian };
}
