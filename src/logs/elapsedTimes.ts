import { clockForm } from './clockForm.js';
import { elapsedSeconds, passesMidnight } from './elapsedSeconds.js';
import { type NumberSpan, numberForm } from './numberForm.js';
import type { TimeSource } from './TimeSource.js';
import type { ResolvedTimes } from './ResolvedTimes.js';
import { serialDay, serialSeconds, serialStep } from './serialDays.js';
import type { TimeRows } from './TimeRows.js';
import type { ReadOptions } from './types.js';
import { utcFromLocal } from './utcFromLocal.js';
import { zoneOf } from './zoneOf.js';

/** Elapsed and epoch times, spreadsheet days, and clock times without a date, of which only the differences count. */
export function elapsedTimes(
  times: TimeRows,
  lines: Float64Array,
  source: TimeSource,
  options: ReadOptions,
  warnings: string[],
  file: string,
): ResolvedTimes {
  const raw = times.numbers.toArray();
  const place = { file, line: lines[0] ?? 1 };
  if (source.form === 'clock') return clockOnly(raw, times, source, options, warnings, place);
  const { form, evidence } = numberForm(spanOf(raw), source, options, place);
  if (form === 'serial-days')
    return serialTimes(raw, lines, { ...source, evidence }, options, warnings, file);
  const first = raw[0] ?? 0;
  const seconds = raw.map((value) => elapsedSeconds(value, first, form));
  const originUtcMs = form === 'epoch-s' ? first * 1000 : form === 'epoch-ms' ? first : null;
  return { seconds, originUtcMs, form, zone: originUtcMs === null ? null : 'UTC', evidence };
}

function spanOf(raw: Float64Array): NumberSpan {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of raw) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return { rows: raw.length, first: raw[0] ?? Number.NaN, least, most };
}

function serialTimes(
  raw: Float64Array,
  lines: Float64Array,
  source: TimeSource & { readonly evidence: string },
  options: ReadOptions,
  warnings: string[],
  file: string,
): ResolvedTimes {
  const day = serialDay(raw[0]!);
  const date = new Date(day * 86_400_000).toISOString().slice(0, 10);
  const zone = zoneOf([{ date, offset: null, line: lines[0]! }], source, options, warnings, file, lines[0]!);
  const { stepS } = serialStep(source.decimals);
  const local = raw.map((serial) => serialSeconds(serial, day, stepS));
  return {
    seconds: utcFromLocal(local, day * 86_400, zone, lines, warnings, file),
    originUtcMs: day * 86_400_000,
    form: 'serial-days',
    zone,
    evidence: `${source.evidence}; ${stepWords(source.decimals)}`,
  };
}

function stepWords(decimals: number): string {
  const { finestS, stepS } = serialStep(decimals);
  const words = (seconds: number) =>
    seconds < 1e-3 ? `${Number((1e6 * seconds).toPrecision(2))} µs` : `${Number(seconds.toPrecision(2))} s`;
  const shown = `with ${decimals} decimal${decimals === 1 ? '' : 's'} they show steps of ${words(finestS)}`;
  return stepS > finestS ? `${shown}, rounded to ${words(stepS)}` : shown;
}

function clockOnly(
  raw: Float64Array,
  times: TimeRows,
  source: TimeSource,
  options: ReadOptions,
  warnings: string[],
  place: { file: string; line: number },
): ResolvedTimes {
  const fraction = raw.some((value) => value % 60 !== 0);
  const form = clockForm({ parts: times.parts, fraction }, source, options, place);
  const seconds =
    form === 'elapsed-mmss' && times.parts === 2
      ? raw.map((value) => (value - (value % 60)) / 60 + (value % 60))
      : raw.slice();
  let days = 0;
  for (let i = 1; i < seconds.length; i++) {
    if (passesMidnight(seconds[i - 1]! - days, seconds[i]!)) {
      days += 86400;
      warnings.push('The clock passes midnight; the next day was taken, because the export has no date.');
    }
    seconds[i] = seconds[i]! + days;
  }
  return {
    seconds,
    originUtcMs: null,
    form,
    zone: null,
    evidence: 'no date beside it: only differences are used',
  };
}
