import { dateOrder } from './dateOrder.js';
import { elapsedTimes } from './elapsedTimes.js';
import type { TimeSource } from './pickTime.js';
import type { ResolvedTimes } from './ResolvedTimes.js';
import type { TimeRows } from './TimeRows.js';
import type { ReadOptions } from './types.js';
import { utcFromLocal } from './utcFromLocal.js';
import { zoneOf } from './zoneOf.js';

/** Turns what the time cells say into seconds: elapsed, epoch, or clock time with its zone. */
export function resolveTimes(
  times: TimeRows,
  lines: Float64Array,
  source: TimeSource,
  options: ReadOptions,
  warnings: string[],
  file: string,
): ResolvedTimes {
  if (source.form === 'count') return countedTimes(times, options);
  if (source.form === 'number' || times.keys[0]?.date === null) {
    return elapsedTimes(times, lines, source, options, warnings, file);
  }
  const order = dateOrder(times.keys, source.header, options.timeForm, file);
  const zone = zoneOf(times.keys, source, options, warnings, file, lines[0] ?? 1);
  const baseS = order.days[0]! * 86400;
  const shifts = times.keys.map(
    (key, index) => (order.days[index]! - order.days[0]!) * 86400 - offsetSeconds(key.offset),
  );
  const seconds = Float64Array.from(
    { length: times.numbers.length },
    (_, i) => times.numbers.at(i) + shifts[times.keyOf.at(i)]!,
  );
  const utc =
    times.keys[0]!.offset === null ? utcFromLocal(seconds, baseS, zone, lines, warnings, file) : seconds;
  return { seconds: utc, originUtcMs: baseS * 1000, form: order.form, zone, evidence: order.evidence };
}

/** Seconds of an offset such as `+02:00`; 0 where there is none. */
export function offsetSeconds(offset: string | null): number {
  if (offset === null || offset === 'Z') return 0;
  const [hours, minutes] = offset.slice(1).split(':').map(Number) as [number, number];
  return (offset.startsWith('-') ? -1 : 1) * (hours * 3600 + minutes * 60);
}

function countedTimes(times: TimeRows, { intervalS = Number.NaN }: ReadOptions): ResolvedTimes {
  return {
    seconds: Float64Array.from({ length: times.numbers.length }, (_, row) => row * intervalS),
    originUtcMs: null,
    form: 'row-count',
    zone: null,
    evidence: countEvidence(intervalS),
  };
}

/** Why rows are counted; what that can't show. */
export function countEvidence(intervalS: number): string {
  return `${intervalS} s from row to row, as stated by --interval; a missing row can't be seen`;
}
