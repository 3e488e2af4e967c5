import type { Block } from '../../outline/Block.js';
import type { Readings } from '../../Readings.js';
import { atWords, countWords, digits, wattWords, whWords } from '../words.js';
import type { WatchedLog } from './Watcher.js';
import { rangeWords } from './rangeWords.js';

const negativeW = 1;
const negativeShare = 0.002;
const standbyShare = 0.01;
const ratedShare = 1.15;
const atRange = 0.999;

/** What is stated of the heater and the meter. */
export interface StatedRanges {
  /** Rated power of the heater. */
  readonly ratedW?: number;
  /** Ends of the meter's ranges. */
  readonly rangeW?: number;
  readonly rangeA?: number;
}

/** Levels of power that cannot be or should not be: below zero, at the end of the range, above the rating, standby. */
export function levelDoubts(log: WatchedLog, { ratedW, rangeW }: StatedRanges): string[] {
  const { readings, levels } = log;
  const doubts: string[] = [];
  const belowW = -Math.max(negativeW, negativeShare * levels.onW);
  const negative = countWhere(readings, (watts) => watts < belowW);
  if (negative > 0) {
    const at = timeWhere(
      readings,
      ({ power }) => power!.leastW < belowW,
      (watts) => watts < belowW,
    );
    doubts.push(
      `The power is below zero in ${countWords(negative, 'reading')}, first at ${atWords(at)}: a heater gives nothing back. Is the sensor the wrong way round?`,
    );
  }
  if (rangeW !== undefined) {
    const full = (watts: number) => watts >= atRange * rangeW;
    const count = countWhere(readings, full);
    if (count > 0) {
      const at = timeWhere(readings, ({ power }) => full(power!.mostW), full);
      doubts.push(
        `The power reaches the end of the meter’s range of ${wattWords(rangeW)} in ${countWords(count, 'reading')}, first at ${atWords(at)}: the true power may be higher.`,
      );
    }
  }
  const range = rangeWords(levels.onW);
  if (range) doubts.push(range);
  if (ratedW !== undefined && levels.onW > ratedShare * ratedW)
    doubts.push(`The heater draws ${wattWords(levels.onW)}, although it is rated at ${wattWords(ratedW)}.`);
  return [...doubts, ...standbyDoubts(log)];
}

/** Standby that makes up more than 1 % of all the energy of the log (common practice, no source). */
function standbyDoubts({ readings, levels, edges }: WatchedLog): string[] {
  if (levels.standbyW === null || !edges) return [];
  const parts = readings.outline.blocks.flatMap(({ power }) => power ?? []);
  const allJ = parts.reduce((sum, part) => sum + part.trapezoidJ, 0);
  const outsideS = readings.outline.endS - (edges.offS - edges.onS);
  const standbyJ = levels.standbyW * outsideS;
  if (!(standbyJ > standbyShare * allJ)) return [];
  return [
    `Outside the heating the log shows a standby of ${wattWords(levels.standbyW)}, ${whWords(standbyJ, 3)} or ${digits((100 * standbyJ) / allJ, 2)} % of all its energy. It is not in the energy of the heating, but runs on within it.`,
  ];
}

function countWhere({ outline }: Readings, fits: (watts: number) => boolean): number {
  const { values, counts } = outline.powers.sorted();
  return values.reduce((sum, watts, i) => sum + (fits(watts) ? counts[i]! : 0), 0);
}

function timeWhere(
  readings: Readings,
  holds: (block: Block) => boolean,
  fits: (watts: number) => boolean,
): number {
  const block = readings.outline.blocks.find(holds);
  if (!block) return 0;
  const { timesS, powerW } = readings.rowsOf(block);
  return timesS[powerW!.findIndex(fits)]!;
}
