import type { Block } from './Block.js';
import { boundedStep, type Step } from './boundedStep.js';
import { curvatureAlong, curvatureFloor } from './curvature.js';
import { eliminate } from './eliminate.js';
import type { Linearised } from './linearise.js';
import { norm } from './norm.js';
import type { Point, Task } from './Task.js';

/** How much of the predicted fall has to come true for a step to count. Source: Moré (1978). */
const least = 1e-4;
/** The second-order part of a step may be this large beside the first. Source: Transtrum and Sethna (2012). */
const mostCurved = 0.75;
const tries = 60;

/** A step that made the sum of squares smaller, and the radius for the next. */
export interface Move {
  readonly point: Point;
  readonly radius: number;
}

/** Shortens the step until the sum of squares falls; null where no step makes it fall. */
export function attempt(
  task: Task,
  point: Point,
  system: Linearised,
  block: Block,
  scale: Float64Array,
  firstRadius: number,
): Move | null {
  let radius = firstRadius;
  for (let turn = 0; turn < tries; turn += 1) {
    const step = boundedStep(task, block, point.p, scale, radius);
    const promising = step.predicted > Number.EPSILON ** 2 * point.squares;
    // Cut off at a bound, a long step may promise nothing where a short one does.
    if (step.length === 0 || (!promising && step.again !== null)) return null;
    const delta = promising ? bent(task, point, system, scale, step) : null;
    if (delta === null) {
      radius = Math.min(radius, step.length) / 4;
      continue;
    }
    const trial = eliminate(task, moved(task, point.p, block, delta));
    const ratio = (point.squares - trial.squares) / step.predicted;
    if (!(ratio > 0.25)) radius = Math.min(radius, step.length) / (ratio > -1 ? 2 : 10);
    else if (ratio > 0.75) radius = Math.max(radius, 2 * step.length);
    if (ratio > least) return { point: trial, radius };
  }
  return null;
}

/** p + δ, kept inside the bounds against rounding. */
export function moved(task: Task, p: Float64Array, block: Block, delta: ArrayLike<number>): Float64Array {
  const result = p.slice();
  block.indices.forEach((j, k) => {
    result[j] = Math.min(task.upper[j]!, Math.max(task.lower[j]!, p[j]! + delta[k]!));
  });
  return result;
}

/** The step with its geodesic acceleration; null where the model bends so much that the step must be shorter. */
function bent(
  task: Task,
  point: Point,
  system: Linearised,
  scale: Float64Array,
  step: Step,
): Float64Array | null {
  if (task.linear.length > 0 || step.again === null) return step.delta;
  // Near the end the second derivative drowns in rounding, and the plain step is as good.
  if (step.predicted < Math.max(1e-6 * point.squares, curvatureFloor(task))) return step.delta;
  const curvature = curvatureAlong(task, point, system, step.delta);
  if (curvature === null) return null;
  const half = step.again(curvature).map((a) => a / 2);
  if (2 * norm(half.map((a, k) => a * scale[k]!)) > mostCurved * step.length) return null;
  const whole = step.delta.map((d, k) => d + half[k]!);
  const inside = whole.every(
    (d, j) => point.p[j]! + d >= task.lower[j]! && point.p[j]! + d <= task.upper[j]!,
  );
  return inside ? whole : step.delta;
}
