import {
  add,
  constant,
  errorOf,
  type Quantity,
  type SourceSpec,
  scale,
  subtract,
} from '../../uncertainty/index.js';
import type { RunContext } from '../RunContext.js';
import type { RunCourse } from './courseOfRun.js';

/**
 * Between two readings the mean temperature may lie off the straight line by this part of their difference; a heating at
 * constant power with a lagging heater body stays well within (common practice, no source).
 */
const BEND = 0.1;
/** The moment at which T2 held and was read, s; common practice, no source. */
const END_MOMENT_S = 20;
/** The room about the vessel against where and when it was read, K; common practice, no source. */
const ROOM_HALF_WIDTH_K = 1;

/** T1 and T2 with their errors, and the same as the thermometer showed them. */
export interface RunEnds {
  readonly start: Quantity;
  readonly end: Quantity;
  readonly startShownK: number;
  readonly endShownK: number;
  readonly ambient: Quantity;
}

/**
 * ∫(T − Ta) dt from t0 to t2 in K·s, straight lines between readings. The errors of T1 and T2 are those of the whole course,
 * in between in proportion to the temperature, so that one thermometer stays one thermometer.
 */
export function excessOverTime(context: RunContext, course: RunCourse, ends: RunEnds): Quantity {
  const { timesS, temperaturesK, lengthS } = course;
  const { start, end, startShownK, endShownK, ambient } = ends;
  let area = 0;
  let bend = 0;
  for (let i = 1; i < timesS.length; i += 1) {
    const span = timesS[i]! - timesS[i - 1]!;
    area += (span * (temperaturesK[i]! + temperaturesK[i - 1]!)) / 2;
    bend += BEND * span * Math.abs(temperaturesK[i]! - temperaturesK[i - 1]!);
  }
  const ofEnd = (area - startShownK * lengthS) / (endShownK - startShownK);
  const own = (what: string, spec: Omit<SourceSpec, 'id'>) =>
    errorOf(context.book.get({ id: `run:${context.run.id}:${what}`, scope: 'run', assumed: true, ...spec }));
  const bending = own('course', { name: 'course of the temperature between readings', halfWidth: bend });
  const moment = own('end-moment', {
    name: 'moment at which the end temperature held',
    halfWidth: END_MOMENT_S,
  });
  const room = own('room-about-vessel', {
    name: 'room about the vessel not as it was read',
    halfWidth: ROOM_HALF_WIDTH_K,
  });
  return add(
    constant(area),
    scale(subtract(start, constant(startShownK)), lengthS - ofEnd),
    scale(subtract(end, constant(endShownK)), ofEnd),
    scale(add(ambient, room), -lengthS),
    bending,
    scale(moment, end.value - ambient.value),
  );
}
