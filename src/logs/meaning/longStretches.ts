import type { Block } from '../outline/Block.js';
import type { Readings } from '../Readings.js';
import { type Stretch, stretchesFromS, stretchesIn } from '../stretchesIn.js';

const gapIntervals = 10;

/** The interval between two readings from which it counts as a gap: ten median ones (common practice, no source). */
export function gapFromS({ outline }: Readings): number {
  return gapIntervals * outline.intervals.median();
}

/** Visits the gaps that reach into the limits: intervals without a known power longer than ten median ones. */
export function longStretches(
  readings: Readings,
  { fromS, toS }: { readonly fromS: number; readonly toS: number },
  visit: (stretch: Stretch) => void,
): void {
  const longS = gapFromS(readings);
  for (const block of readings.outline.blocks) {
    if (!block.power || !(block.power.longestS > longS)) continue;
    if (block.power.lastS <= fromS || stretchesFromS(block) >= toS) continue;
    for (const stretch of longIn(readings, block, longS)) {
      if (stretch.t1 - stretch.t0 > longS && stretch.t1 > fromS && stretch.t0 < toS) visit(stretch);
    }
  }
}

/** Where only one stretch of a block is long, its rows need not be read again. */
function longIn(readings: Readings, block: Block, longS: number): Stretch[] {
  const part = block.power!;
  if (part.secondS > longS) return stretchesIn(readings, block);
  const { longestFromS: t0, longestToS: t1, longestFromW: p0, longestToW: p1 } = part;
  return [{ t0, t1, p0, p1 }];
}
