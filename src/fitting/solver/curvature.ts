import type { Linearised } from './linearise.js';
import { pointAt } from './pointAt.js';
import type { Point, Task } from './Task.js';

/** Part of the step at which the model is probed. Source: Transtrum and Sethna (2012). */
const probe = 0.1;

/** Sum of squares below which a predicted fall is too small for a second derivative that isn't mere rounding. */
export function curvatureFloor(task: Task): number {
  return (10 * task.rounding) ** 2 / probe ** 4;
}

/**
 * First entries of −Qᵀ·f″, with f″ the second derivative of the model along the step δ (no eliminated parameters).
 * Half the step that answers it is the geodesic acceleration. null where the model has no value there.
 * Source: M. K. Transtrum, J. P. Sethna, arXiv:1201.5885 (2012).
 */
export function curvatureAlong(
  task: Task,
  point: Point,
  system: Linearised,
  delta: Float64Array,
): Float64Array | null {
  const rows = task.y.length;
  const ahead = pointAt(
    task,
    point.p.map((value, j) => value + probe * delta[j]!),
    null,
  );
  if (ahead.squares === Number.POSITIVE_INFINITY) return null;
  const second = new Float64Array(rows);
  for (let i = 0; i < rows; i += 1) {
    let slope = 0;
    for (let j = 0; j < delta.length; j += 1) slope += system.jacobian[j * rows + i]! * delta[j]!;
    second[i] = (-2 / probe) * ((point.residuals[i]! - ahead.residuals[i]!) / probe - slope);
  }
  system.factor.reflect(second);
  return second.slice(0, delta.length);
}
