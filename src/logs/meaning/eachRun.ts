import type { PowerPart } from '../outline/Block.js';
import type { PowerLevels } from '../powerLevels.js';
import type { Readings } from '../Readings.js';

/** The moment of a switching lies between these two. */
export interface Bracket {
  readonly fromS: number;
  readonly toS: number;
}

/** Readings in succession that are all on or all off. */
export interface Run {
  readonly on: boolean;
  samples: number;
  /** Of all its readings. */
  sumW: number;
  readonly firstS: number;
  lastS: number;
  /** `null` at the limits of what was looked at. */
  readonly start: Bracket | null;
  end: Bracket | null;
}

/** What is looked for in a log. */
export interface RunSearch {
  readonly fromS: number;
  readonly toS: number;
  readonly levels: PowerLevels;
  /** Each reading is a mean over the interval before it. */
  readonly means: boolean;
}

// On from 60 % of the way between the levels, off below 40 %: a reading in between doesn't make a switching of its own.
const highShare = 0.6;
const lowShare = 0.4;

/**
 * Walks through the on and off runs of a log, within limits in seconds after the first sample. Blocks on one side
 * of the switching levels are not read again.
 */
export function eachRun(readings: Readings, search: RunSearch, visit: (run: Run) => void): void {
  const walk = new Walk(search, visit);
  for (const block of readings.outline.blocks) {
    const part = block.power;
    if (!part || part.known === 0 || part.lastS < search.fromS || part.firstS > search.toS) continue;
    const inside = part.firstS >= search.fromS && part.lastS <= search.toS;
    if (inside && walk.tookWhole(part)) continue;
    const { timesS, powerW } = readings.rowsOf(block);
    for (let i = 0; i < timesS.length; i++) {
      const [timeS, watts] = [timesS[i]!, powerW![i]!];
      if (timeS >= search.fromS && timeS <= search.toS && !Number.isNaN(watts)) walk.see(timeS, watts);
    }
  }
  walk.finish();
}

/** How many rows `eachRun` would read again. */
export function rowsWithRuns(readings: Readings, { levels }: Pick<RunSearch, 'levels'>): number {
  const { highW, lowW } = switchLevels(levels);
  return readings.outline.blocks
    .filter(({ power }) => power && power.leastW < lowW && power.mostW >= highW)
    .reduce((sum, { rows }) => sum + rows, 0);
}

function switchLevels({ onW, standbyW }: PowerLevels) {
  const offW = standbyW ?? 0;
  return { highW: offW + highShare * (onW - offW), lowW: offW + lowShare * (onW - offW) };
}

class Walk {
  private readonly highW: number;
  private readonly lowW: number;
  private readonly means: boolean;
  private run: Run | null = null;
  /** The last reading that was surely in the state of the run, and the one before it. */
  private sureS = Number.NaN;
  private beforeS = Number.NaN;

  constructor(
    { levels, means }: RunSearch,
    private readonly visit: (run: Run) => void,
  ) {
    ({ highW: this.highW, lowW: this.lowW } = switchLevels(levels));
    this.means = means;
  }

  /** Takes a block as a whole where all of it is in the state of the run. */
  tookWhole(part: PowerPart): boolean {
    const { run } = this;
    if (!run || !(part.lengthS > 0)) return false;
    const stays = run.on ? part.leastW >= this.highW : part.mostW < this.lowW;
    if (!stays) return false;
    run.samples += part.known;
    run.sumW += (part.known * part.trapezoidJ) / part.lengthS;
    run.lastS = this.sureS = part.lastS;
    this.beforeS = part.lastS - part.lengthS / part.stretches;
    return true;
  }

  see(timeS: number, watts: number): void {
    const { run } = this;
    const on = watts >= this.highW;
    const off = watts < this.lowW;
    if (run && !(run.on ? off : on)) {
      run.samples++;
      run.sumW += watts;
      run.lastS = timeS;
      if (on || off) [this.beforeS, this.sureS] = [this.sureS, timeS];
      return;
    }
    if (!run && !on && !off) return;
    const bracket = run ? this.bracket(timeS) : null;
    if (run) {
      run.end = bracket;
      this.visit(run);
    }
    this.run = { on, samples: 1, sumW: watts, firstS: timeS, lastS: timeS, start: bracket, end: null };
    [this.beforeS, this.sureS] = [this.sureS, timeS];
  }

  finish(): void {
    if (this.run) this.visit(this.run);
  }

  private bracket(timeS: number): Bracket {
    // A mean that is just within its level still leaves two fifths of its interval to the other.
    const earlierS = this.means && this.beforeS < this.sureS ? lowShare * (this.sureS - this.beforeS) : 0;
    return { fromS: this.sureS - earlierS, toS: timeS };
  }
}
