import type { Readings } from '../Readings.js';
import { gapFromS } from './longStretches.js';

/** How many gaps there are between known powers, over the whole log, and the longest one. */
export interface LogGaps {
  readonly count: number;
  /** 0 where there is none. */
  readonly longestS: number;
}

/** Counts intervals longer than ten median ones; the rows are not read again for it. */
export function logGaps(readings: Readings): LogGaps {
  const longS = gapFromS(readings);
  const { values, counts } = readings.outline.intervals.sorted();
  const count = values.reduce((sum, length, i) => sum + (length > longS ? counts[i]! : 0), 0);
  const parts = readings.outline.blocks.flatMap(({ power }) => power ?? []);
  const longestS = parts.reduce((most, part) => Math.max(most, part.longestS), 0);
  return { count, longestS: count > 0 ? longestS : 0 };
}
