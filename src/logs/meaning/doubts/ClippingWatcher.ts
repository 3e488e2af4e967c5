import type { Block } from '../../outline/Block.js';
import type { Rows } from '../../Rows.js';
import { atWords, countWords, wattWords } from '../words.js';
import type { WatchedLog, Watcher } from './Watcher.js';

const fewestAtTop = 20;
const timesNeighbours = 5;
const neighbours = 20;
const nearShare = 0.1;
const fewestRuns = 5;

/**
 * Many readings at exactly the largest value, which is far more frequent than those just below, and which the
 * power leaves and comes back to: it is cut off there.
 */
export class ClippingWatcher implements Watcher {
  private readonly topW: number | null;
  private readonly atTop: number;
  private runs = 0;
  private firstS = Number.NaN;
  private before = false;

  constructor({ readings }: WatchedLog) {
    const { values, counts } = readings.outline.powers.sorted();
    const last = values.length - 1;
    this.atTop = counts[last] ?? 0;
    const near = values.filter((value) => value >= (1 - nearShare) * values[last]!).length - 1;
    const beside = Math.max(0, ...counts.subarray(Math.max(0, last - neighbours), last));
    const piled = near >= neighbours && this.atTop >= fewestAtTop && this.atTop > timesNeighbours * beside;
    this.topW = piled ? values[last]! : null;
  }

  wants({ power }: Block): boolean {
    return this.topW !== null && power !== null && power.mostW >= this.topW;
  }

  see({ timesS, powerW }: Rows, follows: boolean): void {
    if (this.topW === null) return;
    if (!follows) this.before = false;
    for (let i = 0; i < timesS.length; i++) {
      const watts = powerW![i]!;
      if (Number.isNaN(watts)) continue;
      const top = watts >= this.topW;
      if (top && !this.before && this.runs++ === 0) this.firstS = timesS[i]!;
      this.before = top;
    }
  }

  /** Where the power is cut off; `null` where it isn't. Known once all rows were seen. */
  clippedW(): number | null {
    return this.runs < fewestRuns ? null : this.topW;
  }

  doubts(): string[] {
    const topW = this.clippedW();
    if (topW === null) return [];
    return [
      `The power stands at exactly ${wattWords(topW)}, its largest value, in ${countWords(this.atTop, 'reading')}, first at ${atWords(this.firstS)}, and far less often just below: it looks cut off at the end of the meter’s range, and the true energy is higher.`,
    ];
  }
}
