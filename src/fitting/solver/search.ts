import { covarianceAt } from './covariance.js';
import { type Descent, descend } from './descend.js';
import { eliminate } from './eliminate.js';
import { elsewhere } from './elsewhere.js';
import { findLinear } from './findLinear.js';
import { hasConverged } from './stopReason.js';
import type { Task } from './Task.js';

/** Starts looked at for every nonlinear parameter, and how many of the best are followed. */
const looks = 40;
const followed = 6;
const noWorse = 1e-9;

/** The best descent, and how many others than the first there were. */
export interface Found {
  readonly descent: Descent;
  readonly restarts: number;
}

/**
 * A descent from the start. Where it finds no optimum that determines all parameters, others: the linear parameters are found out
 * and eliminated, first from the same start, then from those of many starts about it that fit best. The same
 * every time.
 */
export function search(task: Task, restart: boolean): Found {
  const first = descend(task, task.start);
  if (!restart || isSound(task, first)) return { descent: first, restarts: 0 };
  const reduced = task.linear.length > 0 ? task : withLinear(task, findLinear(task, task.start));
  let best = first;
  let restarts = 0;
  const follow = (start: Float64Array): boolean => {
    restarts += 1;
    const next = descend(reduced, start);
    // An optimum that is worse than where an undetermined descent ended is not what was looked for.
    const sound = isSound(task, next) && next.point.squares <= best.point.squares * (1 + noWorse);
    if (sound || next.point.squares < best.point.squares) best = next;
    return sound;
  };
  if (reduced !== task && follow(task.start)) return { descent: best, restarts };
  const starts = elsewhere(reduced, task.start, looks * Math.max(1, reduced.nonlinear.length))
    .map((start) => eliminate(reduced, start))
    .filter((point) => point.squares < Number.POSITIVE_INFINITY)
    .sort((a, b) => a.squares - b.squares);
  for (const { p } of starts.slice(0, followed)) if (follow(p)) break;
  return { descent: best, restarts };
}

function isSound(task: Task, descent: Descent): boolean {
  return hasConverged(descent.code) && covarianceAt(task, descent, []).stuck === null;
}

function withLinear(task: Task, linear: readonly number[]): Task {
  if (linear.length === 0) return task;
  return { ...task, linear, nonlinear: task.nonlinear.filter((j) => !linear.includes(j)) };
}
