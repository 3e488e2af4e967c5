import { problem } from '../errors/index.js';
import type { TimeSource } from './pickTime.js';
import type { ResolvedTimes } from './ResolvedTimes.js';
import type { TimeRows } from './TimeRows.js';
import type { ReadOptions, TimeForm } from './types.js';

const scale: Partial<Record<TimeForm, number>> = {
  'elapsed-s': 1,
  'elapsed-ms': 1e-3,
  'elapsed-min': 60,
  'elapsed-h': 3600,
  'epoch-s': 1,
  'epoch-ms': 1e-3,
};
// 2001-09-09 to 2128: seconds and milliseconds since 1970 can't be taken for one another here.
const epochFromS = 1e9;
const epochToS = 5e9;

/** Elapsed and epoch times, and clock times without a date, of which only the differences count. */
export function elapsedTimes(
  times: TimeRows,
  lines: Float64Array,
  source: TimeSource,
  options: ReadOptions,
  warnings: string[],
  file: string,
): ResolvedTimes {
  const raw = times.numbers.toArray();
  if (source.form === 'clock')
    return clockOnly(raw, times, source, options, warnings, { file, line: lines[0] ?? 1 });
  const { form, evidence } = numberForm(raw, source, options, { file, line: lines[0] ?? 1 });
  const factor = scale[form]!;
  const first = raw[0] ?? 0;
  // Dividing keeps 0.3 s out of 300 ms; multiplying by 0.001 doesn't.
  const seconds = raw.map((value) => (factor === 1e-3 ? (value - first) / 1000 : (value - first) * factor));
  const originUtcMs = form === 'epoch-s' ? first * 1000 : form === 'epoch-ms' ? first : null;
  return { seconds, originUtcMs, form, zone: originUtcMs === null ? null : 'UTC', evidence };
}

function numberForm(
  raw: Float64Array,
  source: TimeSource,
  options: ReadOptions,
  place: { file: string; line: number },
): { form: TimeForm; evidence: string } {
  if (options.timeForm) {
    if (scale[options.timeForm]) return { form: options.timeForm, evidence: 'stated by --time-form' };
    throw problem(
      'log-time-bad',
      { got: String(raw[0]), expected: `a time of the form ${options.timeForm}` },
      place,
    );
  }
  const inside = (from: number, to: number) =>
    raw.length > 0 && raw.every((value) => value >= from && value <= to);
  const symbol = source.unit?.symbol;
  if ((symbol === 's' || !symbol) && inside(epochFromS, epochToS))
    return { form: 'epoch-s', evidence: 'the numbers are seconds since 1970' };
  if ((symbol === 'ms' || !symbol) && inside(1e3 * epochFromS, 1e3 * epochToS)) {
    return { form: 'epoch-ms', evidence: 'the numbers are milliseconds since 1970' };
  }
  if (symbol) return { form: `elapsed-${symbol}` as TimeForm, evidence: `its unit is ${symbol}` };
  throw problem(
    'log-two-readings',
    {
      what: `The time column "${source.header}" without a unit`,
      first: 'seconds',
      second: 'minutes or milliseconds',
    },
    place,
    'Say which with --time-form elapsed-s, elapsed-min or elapsed-ms.',
  );
}

function clockOnly(
  raw: Float64Array,
  times: TimeRows,
  source: TimeSource,
  options: ReadOptions,
  warnings: string[],
  place: { file: string; line: number },
): ResolvedTimes {
  const form = clockForm(raw, times, source, options, place);
  const seconds =
    form === 'elapsed-mmss' && times.parts === 2
      ? raw.map((value) => (value - (value % 60)) / 60 + (value % 60))
      : raw.slice();
  let days = 0;
  for (let i = 1; i < seconds.length; i++) {
    // A time of day that falls from evening to morning has passed midnight.
    const passed = seconds[i - 1]! - days > 79200 && seconds[i]! < 7200 && seconds[i - 1]! - days <= 86400;
    if (passed) {
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

function clockForm(
  raw: Float64Array,
  times: TimeRows,
  source: TimeSource,
  options: ReadOptions,
  place: { file: string; line: number },
): TimeForm {
  if (options.timeForm) {
    if (/^elapsed-(hms|mmss)$/.test(options.timeForm)) return options.timeForm;
    throw problem(
      'log-time-bad',
      { got: 'a time without a date', expected: `a time of the form ${options.timeForm}` },
      place,
    );
  }
  if (times.parts === 3 || /\bh{1,2}:mm\b/i.test(source.header)) return 'elapsed-hms';
  if (/\bm{1,2}:ss\b/i.test(source.header) || raw.some((value) => value % 60 !== 0)) return 'elapsed-mmss';
  throw problem(
    'log-two-readings',
    {
      what: `The first time of "${source.header}"`,
      first: 'hours and minutes',
      second: 'minutes and seconds',
    },
    place,
    'Say which with --time-form elapsed-hms or --time-form elapsed-mmss.',
  );
}
