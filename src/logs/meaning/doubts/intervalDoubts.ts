import type { Tally } from '../../outline/Tally.js';
import type { Readings } from '../../Readings.js';
import { readsMeans } from '../cycleStats.js';
import { logGaps } from '../logGaps.js';
import { gapFromS } from '../longStretches.js';
import { countWords, digits, spanWords } from '../words.js';

const longestYearsS = 366 * 86_400;
// Half a period of a mains of 60 Hz: no power of alternating current is known any sooner.
const halfPeriodS = 1 / 120;
const regularShare = 0.9;
const missedIntervals = 1.5;
const holeIntervals = 2.5;
const fewestStretches = 10;
const fewRows = 200_000;

/**
 * Times that speak of something wrong: a log of years, readings faster than the mains swings, rows missing from a log
 * of means, and jumps of the time that the readings of the power don't show (common practice, no source).
 */
export function intervalDoubts(readings: Readings): string[] {
  return [...spanDoubts(readings), ...missedMeans(readings), ...rowGaps(readings)];
}

function spanDoubts({ rows, outline: { endS, intervals } }: Readings): string[] {
  if (endS > longestYearsS)
    return [
      `The times go over ${digits(endS / longestYearsS, 3)} years: is their form right, and none of them spoilt?`,
    ];
  const usualS = intervals.total > 0 ? intervals.median() : endS / (rows - 1);
  if (!(usualS < halfPeriodS)) return [];
  return [
    `The readings are only ${digits(1000 * usualS, 2)} ms apart, less than half a period of the mains: is the unit of the time right?`,
  ];
}

// A mean stands for its own interval; what a missing row held is nowhere in the log.
function missedMeans(readings: Readings): string[] {
  if (!readsMeans(readings)) return [];
  const { intervals } = readings.outline;
  const [usualS, gapS] = [intervals.median(), gapFromS(readings)];
  const usual = countWhere(intervals, (length) => Math.abs(length - usualS) < 0.01 * usualS);
  const long = countWhere(intervals, (length) => length > missedIntervals * usualS && length <= gapS);
  if (long === 0 || usual < regularShare * intervals.total) return [];
  return [
    `Rows are missing: ${countWords(long, 'interval')} between readings ${long === 1 ? 'is' : 'are'} longer than the usual ${digits(usualS)} s. Each reading is a mean over its own interval; what the missing rows held is taken from the reading after them.`,
  ];
}

function countWhere(tally: Tally, fits: (value: number) => boolean): number {
  const { values, counts } = tally.sorted();
  return values.reduce((sum, value, i) => sum + (fits(value) ? counts[i]! : 0), 0);
}

/** Gaps where there is no power, or too few powers to tell what interval is usual: the rows tell it then. */
function rowGaps(readings: Readings): string[] {
  const { intervals, blocks } = readings.outline;
  if (intervals.total >= fewestStretches || readings.rows > fewRows || logGaps(readings).count > 0) return [];
  const times: number[] = [];
  const known: number[] = [];
  for (const block of blocks) {
    const { timesS, powerW } = readings.rowsOf(block);
    times.push(...timesS);
    known.push(...(powerW ? timesS.filter((_, i) => !Number.isNaN(powerW[i]!)) : timesS));
  }
  const lengths = lengthsOf(known);
  if (lengths.length === 0) return [];
  const usualS = lengthsOf(times).sort((a, b) => a - b)[(times.length - 1) >> 1] ?? 0;
  const longestS = lengths.reduce((most, length) => Math.max(most, length), 0);
  const at = lengths.indexOf(longestS);
  const longest = `the longest of ${digits(longestS)} s ${spanWords({ fromS: known[at]!, toS: known[at + 1]! })}`;
  const longer = (times: number) => lengths.filter((length) => length > times * usualS).length;
  if (longer(10) > 0)
    return [`The log has ${countWords(longer(10), 'gap')} of more than ten intervals, ${longest}.`];
  const usual = lengths.filter((length) => Math.abs(length - usualS) < 0.01 * usualS).length;
  const isCounter = readings.has.energy && !readings.has.power;
  if (!isCounter || longer(holeIntervals) === 0 || usual < regularShare * lengths.length) return [];
  return [
    `Rows are missing: ${countWords(longer(holeIntervals), 'interval')} of more than the usual ${digits(usualS)} s, ${longest}. If the heater was switched there, what it drew beside the heating is counted too.`,
  ];
}

function lengthsOf(times: readonly number[]): number[] {
  return times.slice(1).map((time, i) => time - times[i]!);
}
