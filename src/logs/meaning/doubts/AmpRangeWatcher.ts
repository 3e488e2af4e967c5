import type { Block } from '../../outline/Block.js';
import type { Rows } from '../../Rows.js';
import { atWords, countWords, digits } from '../words.js';
import type { WatchedLog, Watcher } from './Watcher.js';

const atRange = 0.999;

/** Currents at the stated end of the meter's range. */
export class AmpRangeWatcher implements Watcher {
  private count = 0;
  private firstS = Number.NaN;

  constructor(
    private readonly log: WatchedLog,
    private readonly rangeA: number,
  ) {}

  wants({ power }: Block): boolean {
    return power !== null && power.mostW >= this.log.levels.thresholdW;
  }

  see({ timesS, currentA }: Rows): void {
    if (!currentA) return;
    for (let i = 0; i < timesS.length; i++) {
      if (currentA[i]! >= atRange * this.rangeA && this.count++ === 0) this.firstS = timesS[i]!;
    }
  }

  doubts(): string[] {
    if (this.count === 0) return [];
    return [
      `The current reaches the end of the meter’s range of ${digits(this.rangeA)} A in ${countWords(this.count, 'reading')}, first at ${atWords(this.firstS)}: the true power may be higher.`,
    ];
  }
}
