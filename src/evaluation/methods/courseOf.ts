import { problem } from '../../errors/index.js';
import type { TemperatureSeries } from '../../fitting/index.js';
import type { Log } from '../../logs/index.js';
import { markMs, type ReadingRole, readingsWith } from '../../protocols/index.js';
import type { RunContext } from '../RunContext.js';

/** The temperature of the load between two moments, as read; seconds after the first moment. */
export interface LoadCourse extends TemperatureSeries {
  readonly timesS: number[];
  readonly temperaturesK: number[];
  readonly from: 'log' | 'readings';
}

/** Fewer typed readings make no curve. */
const LEAST_READINGS = 5;

const typedRoles: readonly ReadingRole[] = ['startTemperature', 'interimTemperature', 'endTemperature'];

/** From the log where there is one, else from the readings that were typed. */
export function courseOf(
  context: RunContext,
  log: Log | null,
  fromMs: number,
  toMs: number,
  least = log === null ? LEAST_READINGS : 3,
): LoadCourse {
  const course = log === null ? typedCourse(context, fromMs, toMs) : loggedCourse(context, log, fromMs, toMs);
  if (course.timesS.length < least)
    throw problem(
      'method-few-temperatures',
      { run: context.run.id, got: course.timesS.length, from: course.from, least },
      { file: context.run.id },
    );
  return course;
}

/** Epoch milliseconds of a log's first sample: its own clock, or the mark at which it was started. */
export function logStartMs(context: RunContext, log: Log): number | null {
  return log.startUtcMs ?? markMs(context.protocol, context.run, 'startLog');
}

function loggedCourse(context: RunContext, log: Log, fromMs: number, toMs: number): LoadCourse {
  const startMs = logStartMs(context, log);
  const course: LoadCourse = { timesS: [], temperaturesK: [], from: 'log' };
  if (startMs === null || log.temperatureK === null) return course;
  for (let i = 0; i < log.timesS.length; i++) {
    const ms = startMs + (log.timesS[i] as number) * 1000;
    const temperature = log.temperatureK[i] as number;
    if (ms < fromMs || ms > toMs || Number.isNaN(temperature)) continue;
    course.timesS.push((ms - fromMs) / 1000);
    course.temperaturesK.push(temperature);
  }
  return course;
}

function typedCourse(context: RunContext, fromMs: number, toMs: number): LoadCourse {
  const course: LoadCourse = { timesS: [], temperaturesK: [], from: 'readings' };
  const readings = typedRoles
    .flatMap((role) => readingsWith(context.protocol, context.run, role))
    .map(({ at, si }) => ({ atMs: Date.parse(at), si }))
    .filter(({ atMs }) => atMs >= fromMs && atMs <= toMs)
    .sort((a, b) => a.atMs - b.atMs);
  for (const { atMs, si } of readings) {
    const timeS = (atMs - fromMs) / 1000;
    // Two answers within one second: the later one mends the earlier.
    if (course.timesS.at(-1) === timeS) course.temperaturesK.pop();
    else course.timesS.push(timeS);
    course.temperaturesK.push(si);
  }
  return course;
}
