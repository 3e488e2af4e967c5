import { saysMean } from '../headerWords.js';
import { Tally } from '../outline/Tally.js';
import type { Readings } from '../Readings.js';
import { type Run, eachRun } from './eachRun.js';
import { levelsOf } from './levelsOf.js';

/** What the switching of a load between two limits comes to. */
export interface CycleStats {
  readonly samples: number;
  /** Time on, the middle of each bracket taken as the moment of switching. */
  readonly onS: number;
  /** Off runs between two on runs. */
  readonly pauses: number;
  /** How many readings each complete on and off run has. */
  readonly onSamples: Tally;
  readonly offSamples: Tally;
  /** Mean readings while on and while off; NaN where there are none. */
  readonly onW: number;
  readonly offW: number;
  /** From one switch-on to the next. */
  readonly cycles: { readonly count: number; readonly meanS: number; readonly spreadS: number };
  /** Variance of the time on when every switching errs by itself, seconds². */
  readonly freeS2: number;
  /** The same when switchings err alike as long as the cycles are equal in number of readings. */
  readonly alikeS2: number;
  /** Runs of one or two readings: the first moments and how many. */
  readonly short: { readonly count: number; readonly first: readonly Run[] };
}

const shortSamples = 2;
const known = new WeakMap<Readings, Map<string, CycleStats>>();

/** Whether the power column says that its readings are means over their intervals. */
export function readsMeans({ mapping }: Readings): boolean {
  const column = mapping.columns.find(({ role }) => role === 'power');
  return column !== undefined && saysMean(column.header);
}

/** Sums up the on and off runs within limits in seconds after the first sample; `null` where the log shows no heating. */
export function cycleStats(
  readings: Readings,
  { fromS, toS }: { readonly fromS: number; readonly toS: number },
): CycleStats | null {
  const levels = readings.has.power ? levelsOf(readings) : null;
  if (!levels) return null;
  const before = known.get(readings) ?? new Map<string, CycleStats>();
  known.set(readings, before);
  const key = `${fromS} ${toS}`;
  const found = before.get(key);
  if (found) return found;
  const sums = new Sums(fromS, toS);
  eachRun(readings, { fromS, toS, levels, means: readsMeans(readings) }, (run) => sums.add(run));
  const stats = sums.finish();
  before.set(key, stats);
  return stats;
}

const middle = ({ fromS, toS }: { fromS: number; toS: number }) => (fromS + toS) / 2;

class Sums {
  private readonly on = { samples: 0, sumW: 0, runs: new Tally(), lastSamples: Number.NaN };
  private readonly off = { samples: 0, sumW: 0, runs: new Tally(), lastSamples: Number.NaN };
  private onS = 0;
  private pauses = 0;
  private readonly short = { count: 0, first: [] as Run[] };
  private lastRiseS = Number.NaN;
  private count = 0;
  private meanS = 0;
  private squares = 0;
  private freeS2 = 0;
  private alikeS2 = 0;
  /** Widths of the brackets of the equal cycles so far. */
  private alike = { rises: 0, falls: 0 };

  constructor(
    private readonly fromS: number,
    private readonly toS: number,
  ) {}

  add(run: Run): void {
    const kind = run.on ? this.on : this.off;
    kind.samples += run.samples;
    kind.sumW += run.sumW;
    const [startS, endS] = [run.start ? middle(run.start) : this.fromS, run.end ? middle(run.end) : this.toS];
    if (run.on) this.onS += endS - startS;
    if (run.on && run.start) this.rose(startS);
    if (run.start && run.end) {
      kind.runs.add(run.samples);
      if (!run.on) this.pauses++;
    }
    // The first and the last run end where the heating does: a single reading there makes it longer than it was.
    const atEnd = (run.start === null) !== (run.end === null);
    const isShort = run.start && run.end ? run.samples <= shortSamples : atEnd && run.on && run.samples === 1;
    if (isShort && this.short.count++ < 3) this.short.first.push(run);
    if (!Number.isNaN(kind.lastSamples) && run.samples !== kind.lastSamples) this.breakOff();
    kind.lastSamples = run.samples;
    if (!run.end) return;
    const widthS = run.end.toS - run.end.fromS;
    this.freeS2 += widthS ** 2 / 12;
    this.alike[run.on ? 'falls' : 'rises'] += widthS;
  }

  finish(): CycleStats {
    this.breakOff();
    const { on, off, count, meanS } = this;
    return {
      samples: on.samples + off.samples,
      onS: this.onS,
      pauses: this.pauses,
      onSamples: on.runs,
      offSamples: off.runs,
      onW: on.sumW / on.samples,
      offW: off.sumW / off.samples,
      cycles: { count, meanS, spreadS: count > 1 ? Math.sqrt(this.squares / (count - 1)) : Number.NaN },
      freeS2: this.freeS2,
      alikeS2: this.alikeS2,
      short: this.short,
    };
  }

  /** Mean and spread of the cycle time without keeping the times (Welford's updates). */
  private rose(timeS: number): void {
    if (!Number.isNaN(this.lastRiseS)) {
      const cycleS = timeS - this.lastRiseS;
      const change = cycleS - this.meanS;
      this.meanS += change / ++this.count;
      this.squares += change * (cycleS - this.meanS);
    }
    this.lastRiseS = timeS;
  }

  private breakOff(): void {
    this.alikeS2 += (this.alike.rises ** 2 + this.alike.falls ** 2) / 12;
    this.alike = { rises: 0, falls: 0 };
  }
}
