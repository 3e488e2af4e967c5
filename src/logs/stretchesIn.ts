import type { Block } from './outline/Block.js';
import type { Readings } from './Readings.js';

/** From one known reading of the power to the next. */
export interface Stretch {
  readonly t0: number;
  readonly t1: number;
  readonly p0: number;
  readonly p1: number;
}

/** The stretches that end in a block, the one from the block before included. */
export function stretchesIn(readings: Readings, block: Block): Stretch[] {
  const { timesS, powerW } = readings.rowsOf(block);
  const stretches: Stretch[] = [];
  if (!powerW || !block.power) return stretches;
  let { beforeS: t0, beforeW: p0 } = block.power;
  for (let i = 0; i < timesS.length; i++) {
    const [t1, p1] = [timesS[i]!, powerW[i]!];
    if (Number.isNaN(p1)) continue;
    if (!Number.isNaN(t0)) stretches.push({ t0, t1, p0, p1 });
    [t0, p0] = [t1, p1];
  }
  return stretches;
}

/** Where the first stretch of a block begins; NaN where it has none. */
export function stretchesFromS(block: Block): number {
  const part = block.power;
  if (!part || part.stretches === 0) return Number.NaN;
  return Number.isNaN(part.beforeS) ? part.firstS : part.beforeS;
}
