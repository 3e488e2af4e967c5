import type { Block } from '../../outline/Block.js';
import { Tally } from '../../outline/Tally.js';
import type { Rows } from '../../Rows.js';
import { spanWords, whWords } from '../words.js';
import type { WatchedLog, Watcher } from './Watcher.js';

const fewestSteps = 5;
const timesUsual = 5;

/** A counter that stands still while the power says that energy passes. */
export class CounterStandsWatcher implements Watcher {
  private readonly stepJ: number;
  /** Energy between two rises of the counter. */
  private readonly usual = new Tally();
  private longest = { fromS: 0, toS: 0, passedJ: 0 };
  private roseS = Number.NaN;
  private counterJ = Number.NaN;
  private timeS = Number.NaN;
  private watts = Number.NaN;
  private passedJ = 0;

  constructor({ readings }: WatchedLog) {
    this.stepJ = readings.resolution.energyJ ?? Number.POSITIVE_INFINITY;
  }

  wants({ power, counter }: Block): boolean {
    if (!power || !counter) return false;
    return Math.abs(power.trapezoidJ - counter.countedJ) >= (fewestSteps - 1) * this.stepJ;
  }

  see({ timesS, powerW, energyJ }: Rows, follows: boolean): void {
    if (!follows) this.forget();
    for (let i = 0; i < timesS.length; i++) {
      const [timeS, watts, counterJ] = [timesS[i]!, powerW![i]!, energyJ![i]!];
      // What is not known may have been a rise.
      if (Number.isNaN(watts) || Number.isNaN(counterJ)) {
        this.forget();
        continue;
      }
      // The lower of two readings: at a switching nothing more has surely passed.
      if (counterJ === this.counterJ) this.passedJ += Math.min(watts, this.watts) * (timeS - this.timeS);
      else this.rose(timeS, counterJ);
      this.timeS = timeS;
      this.watts = watts;
    }
  }

  doubts(): string[] {
    this.note();
    const { passedJ } = this.longest;
    const stands = passedJ >= fewestSteps * this.stepJ && passedJ >= timesUsual * this.usual.median();
    if (!stands) return [];
    return [
      `The energy counter stands still ${spanWords(this.longest)}, while by the power ${whWords(passedJ, 3)} pass.`,
    ];
  }

  private rose(timeS: number, counterJ: number): void {
    if (!Number.isNaN(this.counterJ)) {
      this.note();
      this.usual.add(this.passedJ);
    }
    this.counterJ = counterJ;
    this.roseS = timeS;
    this.passedJ = 0;
  }

  private note(): void {
    if (this.passedJ > this.longest.passedJ)
      this.longest = { fromS: this.roseS, toS: this.timeS, passedJ: this.passedJ };
  }

  private forget(): void {
    this.note();
    this.counterJ = Number.NaN;
    this.passedJ = 0;
  }
}
