import type { Block } from '../../outline/Block.js';
import { Tally } from '../../outline/Tally.js';
import type { Rows } from '../../Rows.js';
import { atWords, countWords, digits } from '../words.js';
import { Sightings, type WatchedLog, type Watcher } from './Watcher.js';

const sampleBlocks = 64;
const fewestRows = 10;
const settledRows = 20;
const onShare = 0.5;
const apart = { impossible: 0.05, withFactor: 0.03, withoutFactor: 0.1, single: 0.1 };
const mostFactor = 1.01;

/** Power held against volts times amps (times power factor), and power factors above 1. */
export class VoltAmpsWatcher implements Watcher {
  private readonly ratios = new Tally();
  private readonly odd = new Sightings<{ atS: number; ratio: number }>();
  private readonly factors = new Sightings<{ atS: number; factor: number }>();
  private readonly every: number;
  private hasFactor = false;
  private sum = 0;
  private onBefore = 0;
  private last = { atS: Number.NaN, ratio: Number.NaN };

  constructor(private readonly log: WatchedLog) {
    this.every = Math.ceil(log.readings.outline.blocks.length / sampleBlocks);
  }

  wants(_block: Block, number: number): boolean {
    return number % this.every === 0;
  }

  see({ timesS, powerW, voltageV, currentA, powerFactor }: Rows, follows: boolean): void {
    this.hasFactor = powerFactor !== null;
    if (!follows) this.onBefore = 0;
    const leastW = onShare * this.log.levels.onW;
    for (let i = 0; i < timesS.length; i++) {
      const factor = powerFactor?.[i] ?? 1;
      if (Math.abs(factor) > mostFactor) this.factors.add({ atS: timesS[i]!, factor });
      const product = voltageV && currentA ? voltageV[i]! * currentA[i]! * factor : Number.NaN;
      // On by either of them: a power that fell to zero beside volts and amps that go on is no switching.
      const on = powerW![i]! >= leastW || product >= leastW;
      // Around a switching volts, amps and watts may belong to different moments.
      if (on && this.onBefore >= 2) this.note(this.last);
      this.onBefore = on ? this.onBefore + 1 : 0;
      const ratio = powerW![i]! / product;
      this.last = { atS: timesS[i]!, ratio };
    }
  }

  doubts(): string[] {
    const median = this.ratios.total >= fewestRows ? this.ratios.median() : Number.NaN;
    return [this.factorWords(), this.levelWords(median), this.oddWords(median)].flatMap((text) => text ?? []);
  }

  private note({ atS, ratio }: { readonly atS: number; readonly ratio: number }): void {
    if (!Number.isFinite(ratio)) return;
    const settled = this.ratios.total >= settledRows;
    if (!settled || Math.abs(ratio / (this.sum / this.ratios.total) - 1) > apart.single / 2)
      this.odd.add({ atS, ratio });
    this.ratios.add(Number(ratio.toPrecision(4)));
    this.sum += ratio;
  }

  private factorWords(): string | null {
    const [first] = this.factors.first;
    if (!first) return null;
    return `The power factor is above 1 in ${countWords(this.factors.count, 'row')}, which cannot be: ${digits(first.factor)} at ${atWords(first.atS)}.`;
  }

  private levelWords(median: number): string | null {
    const percent = digits(100 * Math.abs(median - 1), 2);
    const product = this.hasFactor ? 'volts times amps times power factor' : 'volts times amps';
    if (median > 1 + (this.hasFactor ? apart.withFactor : apart.impossible))
      return `The power is ${percent} % above ${product}, which cannot be: a column is taken for what it isn’t, or in the wrong unit.`;
    if (this.hasFactor && median < 1 - apart.withFactor)
      return `The power is ${percent} % below ${product}; the columns don’t belong together, or one is in the wrong unit.`;
    if (!this.hasFactor && median < 1 - apart.withoutFactor)
      return `The power is ${percent} % below ${product}: a power factor of ${digits(median, 2)}, where a plain heating element has 1. Is it chopped, or has it a motor?`;
    return null;
  }

  private oddWords(median: number): string | null {
    // Where most rows have no power beside volts and amps there is no usual one to be off from; that is said then.
    if (!(median > 0)) return null;
    const odd = this.odd.first.filter(({ ratio }) => Math.abs(ratio / median - 1) > apart.single);
    const [first] = odd;
    if (!first) return null;
    const percent = digits(100 * (first.ratio / median - 1), 2).replace('-', '−');
    return `In ${countWords(odd.length, 'row')} the power doesn’t go with volts and amps as in the others: it is ${percent} % off at ${atWords(first.atS)}.`;
  }
}
