import type { StopCode } from '../FitResult.js';
import { attempt, moved } from './attempt.js';
import { type Block, blockOf } from './Block.js';
import { boundedStep } from './boundedStep.js';
import { eliminate } from './eliminate.js';
import { type Linearised, linearise } from './linearise.js';
import { norm } from './norm.js';
import { type Offset, offsetOf } from './offset.js';
import { pointAt } from './pointAt.js';
import type { Point, Task } from './Task.js';

/** Relative offset below which undamped steps finish the work, that which is good enough, and that which is enough. */
const near = 1e-4;
const done = 1e-6;
const enough = 1e-10;
/** An undamped step must bring the offset down to this part of it to be followed by another. */
const worthwhile = 0.9;
/** How many times the rounding of the data a model may show that is exact, and one that adds up many roundings. */
const roundings = 10;
const manyRoundings = 1e5;
const polishes = 100;
const firstRadius = 1;

/** Where a descent ended. */
export interface Descent {
  readonly point: Point;
  readonly code: StopCode;
  /** The model made linear there; null where it could not be, or has not been. */
  readonly system: Linearised | null;
}

interface Place {
  readonly point: Point;
  readonly system: Linearised;
  readonly block: Block;
  readonly offset: Offset;
}

/**
 * Levenberg–Marquardt in a trust region scaled by the columns of the Jacobian (J. J. Moré, LNM 630 (1978) 105), with
 * geodesic acceleration, from one start to wherever it leads.
 */
export function descend(task: Task, start: Float64Array): Descent {
  let point = eliminate(task, start);
  if (point.squares === Number.POSITIVE_INFINITY) point = pointAt(task, start, null);
  const longest = new Float64Array(task.nonlinear.length);
  let radius: number | null = null;
  let polishBelow = near;
  for (let turn = 0; turn < task.iterations; turn += 1) {
    const place = point.squares === Number.POSITIVE_INFINITY ? null : placeAt(task, point);
    if (place === null) return { point, code: 'model-undefined', system: null };
    if (isNear(task, place, polishBelow)) {
      const polished = polish(task, place);
      const code = verdict(task, polished);
      if (code !== null) return { point: polished.point, code, system: polished.system };
      polishBelow = place.offset.relative / 10;
    }
    const scale = scaleOf(place, longest);
    radius ??=
      firstRadius * (norm(scale.map((d, k) => d * point.p[task.nonlinear[k]!]!)) || norm(point.residuals));
    const move = attempt(task, point, place.system, place.block, scale, radius);
    if (move === null) {
      const code = isBlind(task, place) ? 'rounding' : 'no-progress';
      return { point, code, system: place.system };
    }
    ({ point, radius } = move);
  }
  return { point, code: 'iterations', system: null };
}

function placeAt(task: Task, point: Point): Place | null {
  const system = linearise(task, point);
  if (system === null) return null;
  const block = blockOf(task, system);
  return { point, system, block, offset: offsetOf(task, block, point) };
}

function isNear(task: Task, { offset, point }: Place, below: number): boolean {
  return (
    offset.relative <= below ||
    offset.explained <= roundings * task.rounding ||
    Math.sqrt(point.squares) <= roundings * task.rounding
  );
}

/** Whether a point from which no step leads down is an optimum as far as can be told. */
function isBlind(task: Task, { offset }: Place): boolean {
  return offset.relative <= near || offset.explained <= manyRoundings * task.rounding;
}

function verdict(task: Task, { offset, point }: Place): StopCode | null {
  if (task.nonlinear.length === 0) return 'one-step';
  if (Math.sqrt(point.squares) <= roundings * task.rounding) return 'exact';
  if (offset.relative <= done) return 'converged';
  return offset.explained <= roundings * task.rounding ? 'rounding' : null;
}

/** Undamped steps for as long as the offset falls: the sum of squares can't tell any more, the slope can. */
function polish(task: Task, from: Place): Place {
  let place = from;
  for (let turn = 0; turn < polishes && place.offset.relative > enough; turn += 1) {
    const scale = scaleOf(place, new Float64Array(task.nonlinear.length));
    const step = boundedStep(task, place.block, place.point.p, scale, Number.POSITIVE_INFINITY);
    const point = eliminate(task, moved(task, place.point.p, place.block, step.delta));
    const next = point.squares === Number.POSITIVE_INFINITY ? null : placeAt(task, point);
    const before = place.offset.explained;
    if (next === null || !(next.offset.explained < before)) break;
    place = next;
    if (!(place.offset.explained < worthwhile * before)) break;
  }
  return place;
}

/** The longest that each column has been, which is kept up to date; 1 for a column that was always zero. */
function scaleOf({ system, block }: Place, longest: Float64Array): Float64Array {
  return longest.map((length, k) => {
    longest[k] = Math.max(length, system.norms[block.indices[k]!]!);
    return longest[k]! || 1;
  });
}
