import { octaveOf } from '../../outline/StillRuns.js';
import { countWords, spanWords, wattWords } from '../words.js';
import type { WatchedLog } from './Watcher.js';

const fewestRows = 10;
const leastExpected = 1e-6;
const timesOthers = 3;
// Up to four runs may be stuck ones; the fifth longest shows what the log does of itself.
const ownRun = 4;

/**
 * Stuck readings: rows that show the same in all electrical columns for far longer than is the log's own habit.
 * With a share p of equal pairs among N at that power, N·p^L runs of L equal pairs are to be expected by chance;
 * below a millionth, and at least three times the fifth longest run, it is none (common practice, no source). A power
 * that is cut off at `clippedW` stands still there too, and is told of already.
 */
export function stillDoubts({ readings, levels }: WatchedLog, clippedW: number | null): string[] {
  const { habit, longest } = readings.outline.still;
  const usual = longest[ownRun]?.rows ?? 0;
  const stuck = longest.filter(({ rows, powerW }) => {
    const octave = octaveOf(powerW);
    const [pairs, same] = [habit.pairs[octave]!, habit.samePairs[octave]!];
    const expected = pairs * (same / pairs) ** (rows - 1);
    return (
      powerW >= levels.thresholdW &&
      powerW !== clippedW &&
      rows >= fewestRows &&
      rows >= timesOthers * usual &&
      expected < leastExpected
    );
  });
  return stuck
    .slice(0, ownRun)
    .sort((a, b) => a.fromS - b.fromS)
    .map(
      (run) =>
        `The meter shows exactly ${wattWords(run.powerW)} in ${countWords(run.rows, 'row')} in succession, ${spanWords(run)}; elsewhere its readings move. They look stuck.`,
    );
}
