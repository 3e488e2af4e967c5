import { type Block, less, pressed } from './Block.js';
import { coordinates, dampingFor } from './damped.js';
import { norm } from './norm.js';
import { singularValues } from './singularValues.js';
import type { Task } from './Task.js';

/** A step of the parameters that are not eliminated, in the order of the columns of the block. */
export interface Step {
  readonly delta: Float64Array;
  /** In the scaled norm. */
  readonly length: number;
  /** By how much the sum of squares falls if the model is linear. */
  readonly predicted: number;
  /** The step for another right-hand side with the same damping; null where a bound is touched. */
  readonly again: ((q: Float64Array) => Float64Array) | null;
}

/**
 * Minimises |q − R·δ| with |D·δ| ≤ radius and lower ≤ p + δ ≤ upper. Parameters that the slope presses against a
 * bound, and those whose step would cross one, are held there, and the others are solved again.
 */
export function boundedStep(
  task: Task,
  block: Block,
  p: Float64Array,
  scale: Float64Array,
  radius: number,
): Step {
  const held = pressed(task, block, p);
  const delta = new Float64Array(block.columns.length);
  let again: Step['again'] = null;
  for (let free = others(block, held); free.length > 0; free = others(block, held)) {
    const solve = solver(block, free, scale, radius, less(block.q, block, delta, held), task.blindness);
    const step = solve.step;
    again = held.size === 0 ? solve.again : null;
    const crossing: number[] = [];
    free.forEach((k, i) => {
      const j = block.indices[k]!;
      const inside = Math.min(task.upper[j]!, Math.max(task.lower[j]!, p[j]! + step[i]!));
      if (inside !== p[j]! + step[i]!) crossing.push(k);
      delta[k] = inside === p[j]! + step[i]! ? step[i]! : inside - p[j]!;
    });
    if (crossing.length === 0) break;
    for (const k of crossing) held.add(k);
    again = null;
  }
  const left = less(block.q, block, delta, block.indices.keys());
  return {
    delta,
    length: norm(delta.map((d, k) => d * scale[k]!)),
    predicted: norm(block.q) ** 2 - norm(left) ** 2,
    again,
  };
}

function others(block: Block, held: ReadonlySet<number>): number[] {
  return [...block.indices.keys()].filter((k) => !held.has(k));
}

function solver(
  block: Block,
  free: readonly number[],
  scale: Float64Array,
  radius: number,
  q: Float64Array,
  blindness: number,
): { step: Float64Array; again: (q: Float64Array) => Float64Array } {
  const rows = q.length;
  const scaled = new Float64Array(rows * free.length);
  free.forEach((k, i) => {
    scaled.set(
      block.columns[k]!.map((value) => value / scale[k]!),
      i * rows,
    );
  });
  const svd = singularValues(scaled, rows, free.length);
  const damping = dampingFor(svd, svd.left(q), radius, blindness);
  const again = (other: Float64Array) =>
    svd.right(coordinates(svd, svd.left(other), damping, blindness)).map((z, i) => z / scale[free[i]!]!);
  return { step: again(q), again };
}
