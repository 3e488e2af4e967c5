import type { Block } from '../../outline/Block.js';
import type { Rows } from '../../Rows.js';
import { atWords, wattWords } from '../words.js';
import { Sightings, type WatchedLog, type Watcher } from './Watcher.js';

// One reading at the on level is a short switching, not a spike.
const asOn = [0.5, 1.5] as const;
const timesNeighbours = 3;
const leastAboveW = 10;

/** Single readings more than three times their neighbours. */
export class SpikeWatcher implements Watcher {
  private readonly found = new Sightings<{ atS: number; watts: number; besideW: number }>();
  private beforeW = Number.NaN;
  private timeS = Number.NaN;
  private watts = Number.NaN;

  constructor(private readonly log: WatchedLog) {}

  wants({ power }: Block): boolean {
    return power !== null && power.mostW > asOn[1] * this.log.levels.onW;
  }

  see({ timesS, powerW }: Rows, follows: boolean): void {
    if (!follows) this.beforeW = this.watts = Number.NaN;
    for (let i = 0; i < timesS.length; i++) {
      const nextW = powerW![i]!;
      if (Number.isNaN(nextW)) continue;
      const besideW = Math.max(this.beforeW, nextW, 0);
      if (this.watts > timesNeighbours * besideW + leastAboveW && !this.isOn(this.watts))
        this.found.add({ atS: this.timeS, watts: this.watts, besideW });
      this.beforeW = this.watts;
      this.watts = nextW;
      this.timeS = timesS[i]!;
    }
  }

  doubts(): string[] {
    const [first] = this.found.first;
    if (!first) return [];
    const { atS, watts, besideW } = first;
    const { count } = this.found;
    const what =
      count === 1 ? 'A single reading of the power stands' : `${count} single readings of the power stand`;
    const counts =
      count === 1 ? 'It counts in the energy; is it real?' : 'They count in the energy; are they real?';
    return [
      `${what} out at more than three times the neighbours${count === 1 ? '' : ', first'}: ${wattWords(watts)} beside ${wattWords(besideW)} at ${atWords(atS)}. ${counts}`,
    ];
  }

  private isOn(watts: number): boolean {
    const { onW } = this.log.levels;
    return watts >= asOn[0] * onW && watts <= asOn[1] * onW;
  }
}
