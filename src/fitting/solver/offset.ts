import { type Block, pressed } from './Block.js';
import { norm } from './norm.js';
import { singularValues } from './singularValues.js';
import type { Point, Task } from './Task.js';

/** How far from the optimum a point is. */
export interface Offset {
  /** Length of the part of the residuals that a step could still explain. */
  readonly explained: number;
  /** The same, in units of what is left unexplained, each per degree of freedom; Infinity where nothing is left. */
  readonly relative: number;
}

/**
 * The relative offset: it doesn't depend on the units of data and parameters, and says how far the parameters are
 * off in units of their standard errors. Source: D. M. Bates, D. G. Watts, Technometrics 23 (1981) 179.
 */
export function offsetOf(task: Task, block: Block, point: Point): Offset {
  const held = pressed(task, block, point.p);
  const free = [...block.columns.keys()].filter((k) => !held.has(k));
  if (free.length === 0) return { explained: 0, relative: 0 };
  const rows = block.q.length;
  const unit = new Float64Array(rows * free.length);
  free.forEach((k, i) => {
    const size = norm(block.columns[k]!) || 1;
    unit.set(
      block.columns[k]!.map((value) => value / size),
      i * rows,
    );
  });
  const svd = singularValues(unit, rows, free.length);
  const along = svd.left(block.q);
  const explained = norm(svd.s.map((s, i) => (s > task.blindness * svd.s[0]! ? along[i]! : 0)));
  const rest = Math.sqrt(Math.max(0, point.squares - explained ** 2) / Math.max(1, task.degreesOfFreedom));
  return {
    explained,
    relative: rest === 0 ? Number.POSITIVE_INFINITY : explained / Math.sqrt(free.length) / rest,
  };
}
