import type { Linearised } from './linearise.js';
import { dot } from './norm.js';
import type { Task } from './Task.js';

/** What is left of a linearised system when the linear parameters are eliminated: |q − Σ columns[k]·δ[k]|² to minimise. */
export interface Block {
  /** Index of the parameter that belongs to each column. */
  readonly indices: readonly number[];
  readonly columns: readonly Float64Array[];
  readonly q: Float64Array;
}

/** The lower right part of R, and of Qᵀ·residuals. */
export function blockOf(task: Task, system: Linearised): Block {
  const all = system.order.length;
  const first = task.linear.length;
  return {
    indices: task.nonlinear,
    columns: task.nonlinear.map((_, k) =>
      system.factor.r.slice((first + k) * all + first, (first + k + 1) * all),
    ),
    q: system.q.slice(first),
  };
}

/** vector − Σ columns[k]·δ[k] over the given k. */
export function less(
  vector: Float64Array,
  block: Block,
  delta: ArrayLike<number>,
  which: Iterable<number>,
): Float64Array {
  const result = vector.slice();
  for (const k of which)
    for (let i = 0; i < result.length; i += 1) result[i]! -= block.columns[k]![i]! * delta[k]!;
  return result;
}

/** Columns that the slope of the sum of squares presses against a bound on which their parameter lies. */
export function pressed(task: Task, block: Block, p: Float64Array): Set<number> {
  const held = new Set<number>();
  block.indices.forEach((j, k) => {
    const downhill = dot(block.columns[k]!, block.q);
    if ((p[j]! <= task.lower[j]! && downhill <= 0) || (p[j]! >= task.upper[j]! && downhill >= 0)) held.add(k);
  });
  return held;
}
