import type { Block } from '../../outline/Block.js';
import type { Rows } from '../../Rows.js';
import { digits, spanWords } from '../words.js';
import type { WatchedLog, Watcher } from './Watcher.js';

const fewestRows = 10;
const missedSteps = 10;
const jumpSteps = 5;
// Water at the boil stands still as well.
const boilingK = 368.15;
const nearlyFull = 0.7;

/** A temperature that stands still to the last digit while the heater is on, and then jumps or never moves again. */
export class FrozenTemperatureWatcher implements Watcher {
  private readonly found: { fromS: number; toS: number; kelvin: number }[] = [];
  private readonly stepK: number;
  private readonly rateK: number;
  private flatBefore = false;
  private kelvin = Number.NaN;
  private fromS = Number.NaN;
  private toS = Number.NaN;
  /** Sum and number of the powers in the run, all of it and while on. */
  private sumW = 0;
  private onRows = 0;

  constructor(private readonly log: WatchedLog) {
    const { readings, edges } = log;
    this.stepK = readings.resolution.temperatureK ?? 0;
    const parts = readings.outline.blocks.flatMap(({ temperature }) => temperature ?? []);
    const filled = parts.filter(({ known }) => known > 0);
    const mostK = filled.reduce((most, part) => Math.max(most, part.mostK), -Infinity);
    const riseK = mostK - (filled[0]?.firstK ?? Number.NaN);
    this.rateK = edges && riseK >= 20 * this.stepK ? riseK / (edges.offS - edges.onS) : 0;
  }

  wants({ temperature }: Block): boolean {
    const flat = temperature !== null && temperature.known > 0 && temperature.leastK === temperature.mostK;
    const wanted = flat || this.flatBefore;
    this.flatBefore = flat;
    return wanted;
  }

  see({ timesS, powerW, temperatureK }: Rows, follows: boolean): void {
    if (!follows) this.begin(Number.NaN, Number.NaN);
    for (let i = 0; i < timesS.length; i++) {
      const [timeS, kelvin] = [timesS[i]!, temperatureK![i]!];
      if (Number.isNaN(kelvin)) continue;
      if (kelvin !== this.kelvin) {
        if (Math.abs(kelvin - this.kelvin) >= jumpSteps * this.stepK) this.note();
        this.begin(timeS, kelvin);
      }
      if (!(powerW![i]! >= this.log.levels.thresholdW)) continue;
      if (this.onRows++ === 0) this.fromS = timeS;
      this.sumW += powerW![i]!;
      this.toS = timeS;
    }
  }

  doubts(): string[] {
    const atFull = this.sumW >= nearlyFull * this.log.levels.onW * this.onRows;
    const { lastS } = this.lastTemperature();
    if (atFull && this.kelvin < boilingK && lastS !== null) this.note();
    this.begin(Number.NaN, Number.NaN);
    return this.found
      .slice(0, 3)
      .map(
        (run) =>
          `The temperature stands at ${digits(run.kelvin - 273.15)} °C to the last digit ${spanWords(run)}, while the heater is on. Had the logger lost its probe?`,
      );
  }

  private lastTemperature(): { readonly lastS: number | null } {
    const parts = this.log.readings.outline.blocks.flatMap(({ temperature }) => temperature ?? []);
    const last = parts.findLast(({ known }) => known > 0);
    // Only a run that was seen to the end of the log.
    return { lastS: last && last.lastK === this.kelvin ? last.lastS : null };
  }

  private begin(timeS: number, kelvin: number): void {
    this.fromS = this.toS = timeS;
    this.kelvin = kelvin;
    this.onRows = this.sumW = 0;
  }

  private note(): void {
    const { fromS, toS, kelvin, onRows, rateK, stepK } = this;
    if (onRows >= fewestRows && rateK > 0 && (toS - fromS) * rateK >= missedSteps * stepK)
      this.found.push({ fromS, toS, kelvin });
  }
}
