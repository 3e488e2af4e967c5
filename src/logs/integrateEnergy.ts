import { problem } from '../errors/index.js';
import type { Block } from './outline/Block.js';
import { saysMean } from './headerWords.js';
import { powerGaps } from './powerGaps.js';
import { quantisationJ } from './quantisationJ.js';
import type { Readings } from './Readings.js';
import { readingsOf } from './readingsOf.js';
import { type Stretch, stretchesFromS } from './stretchesIn.js';
import type { Gap, Log } from './types.js';

/** The energy over an interval, how it was found, and what makes it doubtful. */
export interface IntegratedEnergy {
  readonly energyJ: number;
  readonly method: 'trapezoid' | 'step';
  /** Why this method. */
  readonly reason: string;
  readonly meanPowerW: number;
  /** Readings of the power within the interval. */
  readonly samples: number;
  readonly longestGapS: number;
  /** Intervals longer than ten median ones; they were bridged. The first 1000 of them. */
  readonly gaps: readonly Gap[];
  /** Standard uncertainty from the step of the power readings. */
  readonly quantisationUJ: number;
  /** Standard uncertainty from changes of power between two samples. */
  readonly samplingUJ: number;
}

/** A stretch of which only a part may be asked for, and the reading after it. */
interface CutStretch extends Stretch {
  readonly from: number;
  readonly to: number;
  readonly next: number;
}

/**
 * Integrates power over an interval: E = ∫P dt. Trapezoid for sampled power; step where the header says that each
 * reading is the mean over the interval before it. At a limit that lies between two samples a ramp is cut linearly,
 * but a switched power counts in full from the limit on (the middle of the bracket is the best guess of the moment).
 *
 * Units: seconds after the first sample, joules, watts. Uncertainties: a reading is off by at most half a step and a
 * change between two samples may come at any moment, both rectangular (JCGM 100, 4.3.7).
 * Errors: `log-no-power`, `log-not-covering`, `log-gap` for a gap longer than 60 s and 2 % of the interval.
 *
 * @example
 * const log = readExport(new TextEncoder().encode('t [s],P [W]\n0,900\n10,900\n20,900\n'));
 * integrateEnergy(log, { fromS: 0, toS: 20 }).energyJ // => 18000
 * integrateEnergy(log, { fromS: 0, toS: 20 }).method // => "trapezoid"
 */
export function integrateEnergy(
  log: Log | Readings,
  limits: { readonly fromS: number; readonly toS: number; readonly method?: 'trapezoid' | 'step' },
): IntegratedEnergy {
  const { fromS, toS } = limits;
  const readings = readingsOf(log);
  if (!readings.has.power) throw problem('log-no-power', {});
  const { method, reason } = methodFor(readings, limits.method);
  checkCovered(readings, fromS, toS);
  const gaps = powerGaps(readings, { fromS, toS });
  const sums = newSums();
  const cut: CutStretch[] = [];
  for (const [at, block] of readings.outline.blocks.entries()) {
    const part = block.power!;
    const startS = stretchesFromS(block);
    if (!(part.lastS > fromS && startS < toS)) continue;
    if (startS < fromS || part.lastS > toS) {
      addCutBlock(readings, at, { fromS, toS, method }, sums, cut);
      continue;
    }
    sums.energyJ += method === 'step' ? part.stepJ : part.trapezoidJ;
    if (method === 'trapezoid') sums.doubtJ2 += part.doubtJ2;
    for (const key of ['lengthS', 'lengthS2', 'stretches', 'changes'] as const) sums[key] += part[key];
    sums.longestS = Math.max(sums.longestS, part.longestS);
    const beforeW = Math.abs(part.beforeW) || 0;
    sums.largestW = Math.max(sums.largestW, Math.abs(part.leastW), Math.abs(part.mostW), beforeW);
  }
  // What counts as switched is known only with the largest power of all.
  for (const stretch of cut) {
    sums.energyJ +=
      method === 'step' ? stepEnergy(stretch, sums.largestW) : trapezoidEnergy(stretch, sums.largestW);
    sums.doubtJ2 += doubtJ(stretch, method) ** 2;
  }
  return {
    energyJ: sums.energyJ,
    method,
    reason,
    meanPowerW: sums.energyJ / (toS - fromS),
    samples: samplesWithin(readings, fromS, toS),
    longestGapS: sums.longestS,
    gaps,
    quantisationUJ: quantisationJ(sums, readings.resolution.powerW),
    samplingUJ: Math.sqrt(sums.doubtJ2 / 12),
  };
}

function methodFor(
  { mapping }: Readings,
  wanted: 'trapezoid' | 'step' | undefined,
): Pick<IntegratedEnergy, 'method' | 'reason'> {
  if (wanted) return { method: wanted, reason: 'stated by the user' };
  const column = mapping.columns.find(({ role }) => role === 'power');
  if (column && saysMean(column.header)) {
    return {
      method: 'step',
      reason: `header "${column.header}" says that each reading is a mean over its interval`,
    };
  }
  return {
    method: 'trapezoid',
    reason: 'nothing says that a reading is a mean over its interval, so each is taken as a sample',
  };
}

function checkCovered({ outline }: Readings, fromS: number, toS: number): void {
  const filled = outline.blocks.filter(({ power }) => power !== null && power.known > 0);
  const startS = filled[0]?.power?.firstS ?? 0;
  const endS = filled[filled.length - 1]?.power?.lastS ?? 0;
  if (!(fromS < toS) || fromS < startS || toS > endS)
    throw problem('log-not-covering', { fromS, toS, startS, endS });
}

function newSums() {
  const sums = { energyJ: 0, doubtJ2: 0, lengthS: 0, lengthS2: 0, stretches: 0, changes: 0 };
  return { ...sums, longestS: 0, largestW: 0 };
}

/** Adds the stretches of a block that lie within the limits; those that a limit cuts are put aside in `cut`. */
function addCutBlock(
  readings: Readings,
  at: number,
  {
    fromS,
    toS,
    method,
  }: { readonly fromS: number; readonly toS: number; readonly method: 'trapezoid' | 'step' },
  sums: ReturnType<typeof newSums>,
  cut: CutStretch[],
): void {
  const { blocks } = readings.outline;
  const block = blocks[at]!;
  const { timesS, powerW } = readings.rowsOf(block);
  let t0 = block.power!.beforeS;
  let p0 = block.power!.beforeW;
  for (let i = 0; i < timesS.length; i++) {
    const t1 = timesS[i]!;
    const p1 = powerW![i]!;
    if (Number.isNaN(p1)) continue;
    const from = Math.max(t0, fromS);
    const to = Math.min(t1, toS);
    if (from < to) {
      if (from === t0 && to === t1) {
        const doubt = (t1 - t0) * (p1 - p0);
        sums.energyJ += method === 'step' ? p1 * (t1 - t0) : ((p0 + p1) / 2) * (t1 - t0);
        if (method === 'trapezoid') sums.doubtJ2 += doubt * doubt;
      } else {
        // The reading after the interval doesn't count.
        const next = t1 < toS ? nextKnownW(powerW!, i + 1, blocks.slice(at + 1)) : p1;
        cut.push({ t0, t1, p0, p1, from, to, next: next ?? p1 });
      }
      sums.lengthS += to - from;
      sums.lengthS2 += (to - from) ** 2;
      sums.stretches++;
      if (p1 !== p0) sums.changes++;
      sums.longestS = Math.max(sums.longestS, t1 - t0);
      sums.largestW = Math.max(sums.largestW, Math.abs(p0), Math.abs(p1));
    }
    t0 = t1;
    p0 = p1;
  }
}

/** The first known reading from a row of a block on, or in the blocks after it. */
function nextKnownW(powerW: Float64Array, from: number, after: readonly Block[]): number | undefined {
  const here = powerW.subarray(from).find((watts) => !Number.isNaN(watts));
  return here ?? after.find(({ power }) => power!.known > 0)?.power?.firstW;
}

function samplesWithin(readings: Readings, fromS: number, toS: number): number {
  let samples = 0;
  for (const block of readings.outline.blocks) {
    const part = block.power!;
    if (!(part.known > 0 && part.lastS >= fromS && part.firstS <= toS)) continue;
    if (part.firstS >= fromS && part.lastS <= toS) samples += part.known;
    else {
      const { timesS, powerW } = readings.rowsOf(block);
      for (let i = 0; i < timesS.length; i++)
        if (timesS[i]! >= fromS && timesS[i]! <= toS && !Number.isNaN(powerW![i]!)) samples++;
    }
  }
  return samples;
}

// The power is switched where it jumps by more than half of the largest power.
function switched({ p0, p1 }: Stretch, largestW: number): boolean {
  return Math.abs(p1 - p0) > largestW / 2;
}

// The same with the reading after it: `p1` is on the way from one level to the other.
function halfway({ p0, p1, next }: CutStretch, largestW: number): boolean {
  return Math.abs(next - p0) > largestW / 2 && (p1 - p0) * (next - p1) > 0;
}

function trapezoidEnergy(stretch: CutStretch, largestW: number): number {
  const { t0, t1, p0, p1, from, to } = stretch;
  if (from === t0 && to === t1) return ((p0 + p1) / 2) * (to - from);
  if (switched(stretch, largestW)) {
    if (to === t1) return p1 * (to - from);
    if (from === t0) return p0 * (to - from);
  }
  const at = (time: number) => p0 + ((p1 - p0) * (time - t0)) / (t1 - t0);
  return ((at(from) + at(to)) / 2) * (to - from);
}

// A mean over an interval in which the power was switched holds all the energy of that interval; it stands at or
// between the levels before and after.
function stepEnergy(stretch: CutStretch, largestW: number): number {
  const { t0, t1, p1, from, to } = stretch;
  return p1 * (switched(stretch, largestW) || halfway(stretch, largestW) ? t1 - t0 : to - from);
}

function doubtJ({ t0, t1, p0, p1, from, to }: CutStretch, method: 'trapezoid' | 'step'): number {
  if (method === 'trapezoid') return (t1 - t0) * Math.abs(p1 - p0);
  const isCut = from !== t0 || to !== t1;
  return isCut ? (t1 - t0) * Math.min(Math.abs(p0), Math.abs(p1)) : 0;
}
