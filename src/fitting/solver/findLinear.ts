import { norm } from './norm.js';
import { isUsable, pointAt } from './pointAt.js';
import type { Task } from './Task.js';

/** By what a parameter is changed to see which derivatives notice. */
const change = 1.37;
/** Relative change of a derivative that is rounding, for exact derivatives and for differences, in units of their error. */
const unnoticed = 100;

/**
 * Parameters without bounds in which the model is linear as long as the others are held: the derivatives with
 * respect to them don't notice when any of them changes. Taken greedily in their order. Empty where the derivatives at the
 * start are not finite.
 */
export function findLinear(task: Task, start: Float64Array): number[] {
  const rows = task.y.length;
  const size = start.length;
  const jacobianAt = (p: Float64Array): Float64Array | null => {
    const jacobian = new Float64Array(rows * size);
    pointAt(task, p, jacobian);
    return isUsable(jacobian) ? jacobian : null;
  };
  const here = jacobianAt(start);
  if (here === null) return [];
  const deaf = Array.from({ length: size }, (_, k) => {
    if (task.lower[k]! > Number.NEGATIVE_INFINITY || task.upper[k]! < Number.POSITIVE_INFINITY) return null;
    const p = start.slice();
    p[k] = p[k] === 0 ? change : p[k]! * change;
    const there = jacobianAt(p);
    return there === null
      ? null
      : Array.from(
          { length: size },
          (_, j) => !differ(here, there, j * rows, (j + 1) * rows, task.blindness),
        );
  });
  const found: number[] = [];
  for (let j = 0; j < size; j += 1)
    if ([...found, j].every((k) => deaf[k]?.[j] && deaf[j]?.[k])) found.push(j);
  return found;
}

function differ(a: Float64Array, b: Float64Array, from: number, to: number, error: number): boolean {
  const part = a.subarray(from, to);
  const between = part.map((value, i) => value - b[from + i]!);
  return norm(between) > unnoticed * error * norm(part);
}
