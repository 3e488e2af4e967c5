import type { Block } from '../../outline/Block.js';
import type { Rows } from '../../Rows.js';
import { atWords, countWords, digits } from '../words.js';
import { Sightings, type WatchedLog, type Watcher } from './Watcher.js';

const sampleBlocks = 64;
const deadV = 1;
const liveV = 10;
const flowingShare = 0.3;

/** Rows in which a current flows without a voltage: no power is seen there, although it may well have passed. */
export class DeadVoltsWatcher implements Watcher {
  private readonly dead = new Sightings<{ atS: number; amps: number }>();
  private readonly every: number;
  private mostV = 0;
  private mostA = 0;

  constructor({ readings }: WatchedLog) {
    this.every = Math.ceil(readings.outline.blocks.length / sampleBlocks);
  }

  wants(_block: Block, number: number): boolean {
    return number % this.every === 0;
  }

  see({ timesS, voltageV, currentA }: Rows): void {
    if (!voltageV || !currentA) return;
    for (let i = 0; i < timesS.length; i++) {
      const [volts, amps] = [Math.abs(voltageV[i]!), Math.abs(currentA[i]!)];
      if (volts > this.mostV) this.mostV = volts;
      if (amps > this.mostA) this.mostA = amps;
      if (volts < deadV && amps > 0) this.dead.add({ atS: timesS[i]!, amps });
    }
  }

  doubts(): string[] {
    const flowing = this.dead.first.filter(({ amps }) => amps > flowingShare * this.mostA);
    const [first] = flowing;
    if (!first || this.mostV < liveV) return [];
    return [
      `In ${countWords(flowing.length, 'row')} a current flows without a voltage, which cannot be: ${digits(first.amps)} A at ${atWords(first.atS)}. What passed there is not in the energy.`,
    ];
  }
}
