import { problem } from '../errors/index.js';
import { dateOrder } from './dateOrder.js';
import { elapsedTimes } from './elapsedTimes.js';
import type { TimeSource } from './pickTime.js';
import type { ResolvedTimes } from './ResolvedTimes.js';
import type { DateKey, TimeRows } from './TimeRows.js';
import type { ReadOptions } from './types.js';
import { utcFromLocal } from './utcFromLocal.js';

/** Turns what the time cells say into seconds: elapsed, epoch, or clock time with its zone. */
export function resolveTimes(
  times: TimeRows,
  lines: Float64Array,
  source: TimeSource,
  options: ReadOptions,
  warnings: string[],
  file: string,
): ResolvedTimes {
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

function offsetSeconds(offset: string | null): number {
  if (offset === null || offset === 'Z') return 0;
  const [hours, minutes] = offset.slice(1).split(':').map(Number) as [number, number];
  return (offset.startsWith('-') ? -1 : 1) * (hours * 3600 + minutes * 60);
}

function zoneOf(
  keys: readonly DateKey[],
  source: TimeSource,
  options: ReadOptions,
  warnings: string[],
  file: string,
  line: number,
): string {
  const offsets = [...new Set(keys.map((key) => key.offset))];
  if (offsets[0] !== null) {
    if (options.zone !== undefined)
      warnings.push(`The file states its own zone (${offsets[0]}); --zone ${options.zone} was not needed.`);
    return offsets.length > 1 ? 'as stated in each row' : offsets[0] === 'Z' ? 'UTC' : offsets[0]!;
  }
  if (options.zone !== undefined) return options.zone;
  const inHeader = /\b(?:UTC|GMT)\b\s*(?:([+-])(\d{1,2})(?::?(\d{2}))?)?/.exec(source.header);
  if (inHeader) {
    const [, sign, hours, minutes = '00'] = inHeader;
    return sign ? `${sign}${hours!.padStart(2, '0')}:${minutes}` : 'UTC';
  }
  throw problem(
    'log-zone-missing',
    { got: `${keys[0]!.date}`, header: source.header },
    { file, line },
    'State it with --zone, such as --zone Europe/Vienna or --zone UTC.',
  );
}
