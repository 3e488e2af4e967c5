import { problem } from '../errors/index.js';
import { saysMean } from './headerWords.js';
import { powerGaps } from './powerGaps.js';
import { quantisationJ } from './quantisationJ.js';
import type { Readings } from './Readings.js';
import { readingsOf } from './readingsOf.js';
import { type Stretch, stretchesFromS, stretchesIn } from './stretchesIn.js';
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
  const sums = { energyJ: 0, doubtJ2: 0, lengthS: 0, lengthS2: 0, stretches: 0, changes: 0 };
  const cut: CutStretch[] = [];
  let largestW = 0;
  let longestGapS = 0;
  for (const [at, block] of readings.outline.blocks.entries()) {
    const part = block.power!;
    const startS = stretchesFromS(block);
    if (!(part.lastS > fromS && startS < toS)) continue;
    if (startS < fromS || part.lastS > toS) {
      cut.push(...cutStretches(readings, at, fromS, toS));
      continue;
    }
    sums.energyJ += method === 'step' ? part.stepJ : part.trapezoidJ;
    if (method === 'trapezoid') sums.doubtJ2 += part.doubtJ2;
    for (const key of ['lengthS', 'lengthS2', 'stretches', 'changes'] as const) sums[key] += part[key];
    longestGapS = Math.max(longestGapS, part.longestS);
    largestW = Math.max(largestW, Math.abs(part.leastW), Math.abs(part.mostW), Math.abs(part.beforeW) || 0);
  }
  for (const { p0, p1 } of cut) largestW = Math.max(largestW, Math.abs(p0), Math.abs(p1));
  for (const stretch of cut) {
    sums.energyJ += method === 'step' ? stepEnergy(stretch, largestW) : trapezoidEnergy(stretch, largestW);
    sums.doubtJ2 += doubtJ(stretch, method) ** 2;
    sums.lengthS += stretch.to - stretch.from;
    sums.lengthS2 += (stretch.to - stretch.from) ** 2;
    sums.stretches++;
    if (stretch.p1 !== stretch.p0) sums.changes++;
    longestGapS = Math.max(longestGapS, stretch.t1 - stretch.t0);
  }
  return {
    energyJ: sums.energyJ,
    method,
    reason,
    meanPowerW: sums.energyJ / (toS - fromS),
    samples: samplesWithin(readings, fromS, toS),
    longestGapS,
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

function cutStretches(readings: Readings, at: number, fromS: number, toS: number): CutStretch[] {
  const { blocks } = readings.outline;
  const all = stretchesIn(readings, blocks[at]!);
  const after = blocks.slice(at + 1).find(({ power }) => power!.known > 0)?.power;
  return all.flatMap((stretch, index) => {
    const from = Math.max(stretch.t0, fromS);
    const to = Math.min(stretch.t1, toS);
    // The reading after the interval doesn't count.
    const next = stretch.t1 < toS ? (all[index + 1]?.p1 ?? after?.firstW ?? stretch.p1) : stretch.p1;
    return from < to ? [{ ...stretch, from, to, next }] : [];
  });
}

function samplesWithin(readings: Readings, fromS: number, toS: number): number {
  let samples = 0;
  for (const block of readings.outline.blocks) {
    const part = block.power!;
    if (!(part.known > 0 && part.lastS >= fromS && part.firstS <= toS)) continue;
    if (part.firstS >= fromS && part.lastS <= toS) samples += part.known;
    else {
      const { timesS, powerW } = readings.rowsOf(block);
      samples += timesS.filter((t, i) => t >= fromS && t <= toS && !Number.isNaN(powerW![i]!)).length;
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
