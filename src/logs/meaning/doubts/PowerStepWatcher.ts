import type { Block } from '../../outline/Block.js';
import type { Rows } from '../../Rows.js';
import { atWords, wattWords } from '../words.js';
import { Sightings, type WatchedLog, type Watcher } from './Watcher.js';

const readings = 10;
const stepShare = 0.1;
const steadyShare = 0.05;

/** Steps from one steady power to another while on: another setting, or another appliance on the same meter. */
export class PowerStepWatcher implements Watcher {
  private readonly found = new Sightings<{ atS: number; fromW: number; toW: number }>();
  private steady: number[] = [];
  private moved: { atS: number; watts: number }[] = [];

  constructor(private readonly log: WatchedLog) {}

  wants({ power }: Block): boolean {
    if (!power || power.known === 0) return false;
    const leastW = Math.min(power.leastW, Number.isNaN(power.beforeW) ? power.leastW : power.beforeW);
    return power.mostW - leastW > stepShare * this.log.levels.onW;
  }

  see({ timesS, powerW }: Rows, follows: boolean): void {
    if (!follows) this.forget();
    const { thresholdW } = this.log.levels;
    for (let i = 0; i < timesS.length; i++) {
      const watts = powerW![i]!;
      if (Number.isNaN(watts)) continue;
      if (watts < thresholdW) this.forget();
      else this.next(timesS[i]!, watts);
    }
  }

  doubts(): string[] {
    const [first] = this.found.first;
    if (!first) return [];
    const more = this.found.count > 1 ? ` and ${this.found.count - 1} times more` : '';
    return [
      `While the heater is on its power steps from ${wattWords(first.fromW)} to ${wattWords(first.toW)} at ${atWords(first.atS)}${more}: another setting, or another appliance on the meter?`,
    ];
  }

  private next(atS: number, watts: number): void {
    const { onW } = this.log.levels;
    const { steady, moved } = this;
    const away = steady.length >= readings && Math.abs(watts - mean(steady)) > stepShare * onW;
    if (!away) {
      if (moved.length > 0) this.moved = [];
      steady.push(watts);
      if (steady.length > readings) steady.shift();
      return;
    }
    moved.push({ atS, watts });
    if (moved.length > readings) moved.shift();
    if (moved.length < readings) return;
    const level = moved.map((each) => each.watts);
    if (spread(level) > steadyShare * onW) return;
    if (spread(steady) <= steadyShare * onW)
      this.found.add({ atS: moved[0]!.atS, fromW: mean(steady), toW: mean(level) });
    this.steady = level;
    this.moved = [];
  }

  private forget(): void {
    if (this.steady.length > 0) this.steady = [];
    if (this.moved.length > 0) this.moved = [];
  }
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const spread = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
