import type { RunEvaluation } from '../evaluation/index.js';
import { type Log, onOffEdges } from '../logs/index.js';
import { readingsWith } from '../protocols/index.js';
import { displayUnit, toUnit, type UnitSystem } from '../units/index.js';
import type { CoursePoint } from './charts/courseChart.js';
import { markTimeMs } from './Page.js';
import { thinSeries } from './thinSeries.js';

/** What is shown before switch-on and after switch-off, in minutes. */
const BEFORE = 5;
const AFTER = 15;

/** A run against minutes from switch-on, in units of the page. */
export interface RunCourse {
  readonly power: readonly CoursePoint[];
  readonly temperature: readonly CoursePoint[];
  /** Water temperatures read at the bench. */
  readonly bench: readonly CoursePoint[];
  /** Minutes of switch-off; null where it was not marked. */
  readonly off: number | null;
  /** False where no switch-on was marked and minutes count from the first reading. */
  readonly fromSwitchOn: boolean;
}

/**
 * Logs and bench readings of a run on one time axis. A log without a clock is laid with its own switch-on on the mark
 * of the bench where it shows one, otherwise with its first sample on the mark at which the loggers were started.
 */
export function courseOf(run: RunEvaluation, units: UnitSystem, most: number): RunCourse {
  const on = markTimeMs(run, 'switchOn');
  const zero = on ?? Date.parse(run.run.startedAt);
  const offMs = markTimeMs(run, 'switchOff');
  const off = offMs === null ? null : (offMs - zero) / 60_000;
  const window = [
    on === null ? Number.NEGATIVE_INFINITY : -BEFORE,
    off === null ? Number.POSITIVE_INFINITY : off + AFTER,
  ] as const;
  const unit = displayUnit('temperature', units);
  const degrees = (kelvin: number) => toUnit(kelvin, 'temperature', unit);
  const line = (log: Log | null, values: Float64Array | null | undefined, shown: (si: number) => number) =>
    log && values ? lineOf(log, values, shown, startMinutes(log, run, zero), window, most) : [];
  return {
    power: line(run.powerLog, run.powerLog?.powerW, (watts) => watts),
    temperature: line(run.temperatureLog, run.temperatureLog?.temperatureK, degrees),
    bench: (['startTemperature', 'interimTemperature', 'endTemperature'] as const)
      .flatMap((role) => readingsWith(run.protocol, run.run, role))
      .map(({ at, si }) => ({ minutes: (Date.parse(at) - zero) / 60_000, value: degrees(si) }))
      .filter(({ minutes }) => Number.isFinite(minutes)),
    off,
    fromSwitchOn: on !== null,
  };
}

/** Minutes from switch-on to the first sample of a log. */
function startMinutes(log: Log, run: RunEvaluation, zeroMs: number): number {
  if (log.startUtcMs !== null) return (log.startUtcMs - zeroMs) / 60_000;
  const edge = switchOnS(log);
  if (edge !== null) return -edge / 60;
  const started = markTimeMs(run, 'startLog');
  return started === null ? 0 : (started - zeroMs) / 60_000;
}

function switchOnS(log: Log): number | null {
  if (log.powerW === null) return null;
  try {
    return onOffEdges(log).onS;
  } catch {
    // A log that shows no heating has no edge to go by; the picture is drawn all the same.
    return null;
  }
}

function lineOf(
  log: Log,
  values: Float64Array,
  shown: (si: number) => number,
  start: number,
  window: readonly [number, number],
  most: number,
): CoursePoint[] {
  const minutes = Array.from(log.timesS, (seconds) => start + seconds / 60);
  const from = minutes.findIndex((each) => each >= window[0]);
  const to = minutes.findLastIndex((each) => each <= window[1]);
  if (from < 0 || to < from) return [];
  const points = withGaps(minutes.slice(from, to + 1), values.slice(from, to + 1));
  const kept = thinSeries(points.values, most);
  return kept.map((i) => {
    const value = points.values[i] as number;
    return { minutes: points.minutes[i] as number, value: Number.isNaN(value) ? null : shown(value) };
  });
}

/** An unknown value is put where samples are missing for long, so that no line is drawn across. */
function withGaps(minutes: readonly number[], values: Float64Array): { minutes: number[]; values: number[] } {
  const steps = minutes.slice(1).map((each, i) => each - (minutes[i] as number));
  const usual = [...steps].sort((a, b) => a - b)[Math.floor(steps.length / 2)] ?? 0;
  const longest = Math.max(0.5, 10 * usual);
  const out: { minutes: number[]; values: number[] } = { minutes: [], values: [] };
  minutes.forEach((each, i) => {
    if (i > 0 && (steps[i - 1] as number) > longest) {
      out.minutes.push(each - (steps[i - 1] as number) / 2);
      out.values.push(Number.NaN);
    }
    out.minutes.push(each);
    out.values.push(values[i] as number);
  });
  return out;
}
