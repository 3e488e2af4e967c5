import type { Log } from '../../logs/index.js';
import { markMs, readingOf, readingsWith } from '../../protocols/index.js';
import type { RunContext } from '../RunContext.js';
import { courseFrom } from '../vapourTemperature.js';

/** Temperatures of the load from the reading of T1 to that of T2, as the thermometer showed them. */
export interface RunCourse {
  /** Seconds after the reading of T1; the first is 0. */
  readonly timesS: readonly number[];
  readonly temperaturesK: readonly number[];
  readonly lengthS: number;
  readonly basis: 'log' | 'readings' | 'ends';
}

/** A log that begins this much later, or ends earlier, than the readings is filled up with them. */
const UNCOVERED_S = 30;
/** Readings whose times span less than this part of the heating were typed in afterwards. */
const LEAST_SPAN = 0.9;

/**
 * The course of the temperature of a run from t0 to t2: from the log where its clock is known, else from what was typed at
 * the bench on the way, else a straight line from switch-on to switch-off. A sentence where the times are no good.
 */
export function courseOfRun(
  context: RunContext,
  log: Log | null,
  heatingS: number,
): RunCourse | { readonly why: string } {
  const { protocol, run } = context;
  const first = readingOf(protocol, run, 'startTemperature');
  const last = readingOf(protocol, run, 'endTemperature');
  if (!first || !last) return { why: 'Start or end temperature was not read.' };
  const onMs = markMs(protocol, run, 'switchOn') ?? Date.parse(first.at);
  const offMs = markMs(protocol, run, 'switchOff') ?? Date.parse(last.at);
  const fromMs = Math.min(Date.parse(first.at), onMs);
  const toMs = Math.max(Date.parse(last.at), offMs);
  const lengthS = (toMs - fromMs) / 1000;
  if (!(lengthS >= LEAST_SPAN * heatingS))
    return { why: 'The times of the readings don’t span the heating.' };
  const seconds = (ms: number) => (ms - fromMs) / 1000;
  const whole = (points: [number, number][], basis: RunCourse['basis']): RunCourse => ({
    timesS: points.map(([time]) => time),
    temperaturesK: points.map(([, kelvin]) => kelvin),
    lengthS,
    basis,
  });
  const logged = log === null ? null : courseFrom(log, fromMs, toMs);
  if (log?.startUtcMs != null && logged) {
    const startS = seconds(log.startUtcMs);
    const points = Array.from(logged.timesS, (time, i): [number, number] => [
      time + startS,
      logged.temperaturesK[i] as number,
    ]);
    if (points[0]![0] > UNCOVERED_S) points.unshift([0, first.si]);
    else points[0] = [0, points[0]![1]];
    if (points.at(-1)![0] < lengthS - UNCOVERED_S) points.push([lengthS, last.si]);
    else points[points.length - 1] = [lengthS, points.at(-1)![1]];
    return whole(points, 'log');
  }
  const interim = readingsWith(protocol, run, 'interimTemperature')
    .map((each): [number, number] => [seconds(Date.parse(each.at)), each.si])
    .filter(([time]) => time > seconds(onMs) && time < seconds(offMs));
  const points: [number, number][] = [
    [0, first.si],
    [seconds(onMs), first.si],
    ...interim,
    [seconds(offMs), last.si],
    [lengthS, last.si],
  ];
  return whole(points, interim.length > 0 ? 'readings' : 'ends');
}
