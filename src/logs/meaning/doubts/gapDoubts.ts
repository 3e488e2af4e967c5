import { HeatledgerError } from '../../../errors/index.js';
import { powerGaps } from '../../powerGaps.js';
import type { Readings } from '../../Readings.js';
import { gapDoubt } from '../gapDoubt.js';
import { logGaps } from '../logGaps.js';
import { countWords, digits, spanWords, whWords } from '../words.js';
import type { WatchedLog } from './Watcher.js';

/** Gaps between known powers: how many, the longest, and how far they matter to the energy. */
export function gapDoubts({ readings, edges }: WatchedLog): string[] {
  const { count, longestS } = logGaps(readings);
  if (count === 0) return [];
  const longest = placeOf(readings, longestS);
  const all = `The log has ${countWords(count, 'gap')} of more than ten intervals, the longest of ${digits(longestS)} s ${spanWords(longest)}.`;
  const limits = edges && { fromS: edges.onS, toS: edges.offS };
  // A gap that is too long to be bridged is an error, not a doubt.
  if (!limits || !areBridged(readings, limits)) return [all];
  const within = gapDoubt(readings, limits);
  if (within.count === 0) return [`${all} None is within the heating.`];
  const held = within.counted > 0 ? ', held against the counter' : '';
  return [
    `${all} ${countWords(within.count, 'gap')} within the heating ${within.count === 1 ? 'is' : 'are'} bridged by a straight line${held}, which leaves a doubt of ${whWords(within.extraUJ, 2)} (standard uncertainty).`,
  ];
}

function areBridged(readings: Readings, limits: { readonly fromS: number; readonly toS: number }): boolean {
  try {
    powerGaps(readings, limits);
    return true;
  } catch (error) {
    if (error instanceof HeatledgerError) return false;
    throw error;
  }
}

function placeOf(readings: Readings, longestS: number): { readonly fromS: number; readonly toS: number } {
  const block = readings.outline.blocks.find(({ power }) => power!.longestS === longestS)!;
  const { timesS, powerW } = readings.rowsOf(block);
  let fromS = block.power!.beforeS;
  for (let i = 0; i < timesS.length; i++) {
    if (Number.isNaN(powerW![i]!)) continue;
    if (timesS[i]! - fromS === longestS) return { fromS, toS: timesS[i]! };
    fromS = timesS[i]!;
  }
  return { fromS: block.startS, toS: block.endS };
}
