import type { Rows } from '../Rows.js';

/** Rows in succession that show exactly the same power, voltage and current. */
export interface StillRun {
  readonly fromS: number;
  readonly toS: number;
  readonly rows: number;
  readonly powerW: number;
}

const kept = 16;
const shortest = 8;

/** Pairs of rows in succession by the octave of their power (`octaveOf`), and how many of them are the same. */
export interface StillHabit {
  readonly pairs: Float64Array;
  readonly samePairs: Float64Array;
}

/** Number of the octave of a power: 1 from 1 W, 2 from 2 W, 3 from 4 W and so on, 0 below. */
export function octaveOf(watts: number): number {
  return 32 - Math.clz32(watts);
}

/** Finds the longest runs of rows that show the same; rows without power or with a power of 0 don't count. */
export class StillRuns {
  pairs = 0;
  samePairs = 0;
  // A heater that is on and one that is off have different habits.
  readonly habit: StillHabit = { pairs: new Float64Array(33), samePairs: new Float64Array(33) };
  private runs: StillRun[] = [];
  private fromS = Number.NaN;
  private toS = Number.NaN;
  private rows = 0;
  private watts = Number.NaN;
  private volts = Number.NaN;
  private amps = Number.NaN;

  add({ timesS, powerW, voltageV, currentA }: Rows): void {
    if (!powerW) return;
    for (let i = 0; i < timesS.length; i++) {
      const watts = powerW[i]!;
      if (Number.isNaN(watts)) continue;
      const volts = voltageV ? voltageV[i]! : 0;
      const amps = currentA ? currentA[i]! : 0;
      const counts = watts > 0 && this.watts > 0;
      if (counts) {
        this.pairs++;
        this.habit.pairs[octaveOf(watts)]!++;
      }
      if (counts && watts === this.watts && volts === this.volts && amps === this.amps) {
        this.samePairs++;
        this.habit.samePairs[octaveOf(watts)]!++;
        this.rows++;
        this.toS = timesS[i]!;
        continue;
      }
      if (this.rows >= shortest) this.keep();
      this.fromS = this.toS = timesS[i]!;
      this.rows = 1;
      this.watts = watts;
      this.volts = volts;
      this.amps = amps;
    }
  }

  longest(): readonly StillRun[] {
    if (this.rows >= shortest) this.keep();
    this.rows = 0;
    return this.runs;
  }

  private keep(): void {
    const { fromS, toS, rows, watts: powerW } = this;
    if (this.runs.length === kept && this.runs[kept - 1]!.rows >= rows) return;
    this.runs.push({ fromS, toS, rows, powerW });
    this.runs.sort((a, b) => b.rows - a.rows);
    this.runs.length = Math.min(this.runs.length, kept);
  }
}
