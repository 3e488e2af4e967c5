import { problem } from '../errors/index.js';
import { medianInterval } from './medianInterval.js';

// One row that comes late by a few intervals was written late. More intervals, two late rows in a row, or a late row
// at a time that is there already speak of a clock that was set back.
const lateIntervals = 5;

/**
 * The rows in ascending time without repeats, as indices into the file's order. Single rows out of order are
 * sorted, repeats dropped, a file with the newest row first is turned round: each reported with its count. A clock
 * that was set back leaves the order open and is an error. `null` where there is nothing to change.
 */
export function orderRows(
  seconds: Float64Array,
  lines: Float64Array,
  warnings: string[],
  file: string,
): number[] | null {
  if (isAscending(seconds)) return null;
  const order = Array.from(seconds, (_, index) => index);
  if (isNewestFirst(seconds)) {
    order.reverse();
    warnings.push('The newest row comes first; the rows were turned round.');
  }
  const median = medianInterval(seconds.map((_, index) => seconds[order[index]!]!));
  let latest = Number.NEGATIVE_INFINITY;
  const late = new Set<number>();
  for (const [at, index] of order.entries()) {
    const byS = latest - seconds[index]!;
    if (byS > 0) {
      const before = order[at - 1]!;
      if (late.has(before)) throw backward(latest - seconds[before]!, lines[before]!, file);
      if (byS > lateIntervals * median) throw backward(byS, lines[index]!, file);
      late.add(index);
    } else latest = seconds[index]!;
  }
  if (late.size > 0) {
    order.sort((a, b) => seconds[a]! - seconds[b]! || a - b);
    const twice = order.findIndex(
      (index, at) => late.has(index) && seconds[index] === seconds[order[at - 1]!],
    );
    if (twice > 0) throw backward(latest - seconds[order[twice]!]!, lines[order[twice]!]!, file);
    warnings.push(
      `${late.size} of ${order.length} rows were out of order by a few intervals; they were sorted.`,
    );
  }
  const kept = order.filter((index, at) => at === 0 || seconds[index] !== seconds[order[at - 1]!]);
  const repeats = order.length - kept.length;
  warnings.push(...repeatsWarning(repeats, order.length));
  return kept;
}

/** The sentence about rows that repeat the time of the row before; none where there are none. */
export function repeatsWarning(repeats: number, rows: number): string[] {
  if (repeats === 0) return [];
  return [`${repeats} of ${rows} rows repeat the time of the row before; the first of each was kept.`];
}

function isAscending(seconds: Float64Array): boolean {
  for (let i = 1; i < seconds.length; i++) if (!(seconds[i]! > seconds[i - 1]!)) return false;
  return true;
}

function isNewestFirst(seconds: Float64Array): boolean {
  if (seconds.length < 2 || !(seconds[seconds.length - 1]! < seconds[0]!)) return false;
  return seconds.every((time, index) => index === 0 || time <= seconds[index - 1]!);
}

function backward(byS: number, line: number, file: string) {
  return problem(
    'log-time-backward',
    { byS: Number(byS.toPrecision(6)) },
    { file, line },
    'Cut the file at this line and import the parts as two files.',
  );
}
