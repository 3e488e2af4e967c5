import { problem } from '../errors/index.js';
import { saysMean } from './headerWords.js';
import { medianInterval } from './medianInterval.js';
import { quantisationJ } from './quantisationJ.js';
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
  /** Intervals longer than ten median ones; they were bridged. */
  readonly gaps: readonly Gap[];
  /** Standard uncertainty from the step of the power readings. */
  readonly quantisationUJ: number;
  /** Standard uncertainty from changes of power between two samples. */
  readonly samplingUJ: number;
}

/** One stretch between two known readings, and the part of it that is asked for. */
interface Stretch {
  readonly t0: number;
  readonly t1: number;
  readonly p0: number;
  readonly p1: number;
  readonly from: number;
  readonly to: number;
  /** The power is switched here: it jumps by more than half of the largest power. */
  readonly switched: boolean;
  /** The same with the reading after it: `p1` is on the way from one level to the other. */
  readonly halfway: boolean;
}

const gapIntervals = 10;
const bridgedAlwaysS = 60;
const bridgedShare = 0.02;

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
  log: Log,
  limits: { readonly fromS: number; readonly toS: number; readonly method?: 'trapezoid' | 'step' },
): IntegratedEnergy {
  const { fromS, toS } = limits;
  const { method, reason } = methodFor(log, limits.method);
  const known = knownReadings(log);
  const stretches = stretchesOf(known, fromS, toS);
  const gaps = gapsOf(stretches, known.times, toS - fromS);
  let energyJ = 0;
  let variance = 0;
  for (const stretch of stretches) {
    energyJ += method === 'step' ? stepEnergy(stretch) : trapezoidEnergy(stretch);
    variance += doubtJ(stretch, method) ** 2 / 12;
  }
  return {
    energyJ,
    method,
    reason,
    meanPowerW: energyJ / (toS - fromS),
    samples: known.times.filter((time) => time >= fromS && time <= toS).length,
    longestGapS: stretches.reduce((longest, { t0, t1 }) => Math.max(longest, t1 - t0), 0),
    gaps,
    quantisationUJ: quantisationJ(stretches, log.resolution.powerW),
    samplingUJ: Math.sqrt(variance),
  };
}

function methodFor(
  log: Log,
  wanted: 'trapezoid' | 'step' | undefined,
): Pick<IntegratedEnergy, 'method' | 'reason'> {
  if (wanted) return { method: wanted, reason: 'stated by the user' };
  const column = log.mapping.columns.find(({ role }) => role === 'power');
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

function knownReadings(log: Log): { times: Float64Array; powers: Float64Array } {
  const { powerW, timesS } = log;
  if (!powerW) throw problem('log-no-power', {});
  return {
    times: timesS.filter((_, index) => !Number.isNaN(powerW[index]!)),
    powers: powerW.filter((value) => !Number.isNaN(value)),
  };
}

function stretchesOf(
  { times, powers }: { times: Float64Array; powers: Float64Array },
  fromS: number,
  toS: number,
): Stretch[] {
  const startS = times[0] ?? 0;
  const endS = times[times.length - 1] ?? 0;
  if (!(fromS < toS) || fromS < startS || toS > endS)
    throw problem('log-not-covering', { fromS, toS, startS, endS });
  const stretches: Stretch[] = [];
  let largest = 0;
  for (let i = 1; i < times.length; i++) {
    const [t0, t1, p0, p1] = [times[i - 1]!, times[i]!, powers[i - 1]!, powers[i]!];
    const [from, to] = [Math.max(t0, fromS), Math.min(t1, toS)];
    if (from >= to) continue;
    largest = Math.max(largest, Math.abs(p0), Math.abs(p1));
    stretches.push({ t0, t1, p0, p1, from, to, switched: false, halfway: false });
  }
  const jumps = (a: number, b: number) => Math.abs(b - a) > largest / 2;
  return stretches.map((stretch, index) => {
    const { p0, p1 } = stretch;
    const next = stretches[index + 1]?.p1 ?? p1;
    return { ...stretch, switched: jumps(p0, p1), halfway: jumps(p0, next) && (p1 - p0) * (next - p1) > 0 };
  });
}

function gapsOf(stretches: readonly Stretch[], times: Float64Array, lengthS: number): Gap[] {
  const long = gapIntervals * medianInterval(times);
  const longestS = Math.max(bridgedAlwaysS, bridgedShare * lengthS);
  const gaps = stretches.filter(({ t0, t1 }) => t1 - t0 > long).map(({ t0, t1 }) => ({ fromS: t0, toS: t1 }));
  const worst = gaps.find((gap) => gap.toS - gap.fromS > longestS);
  if (worst) throw problem('log-gap', { ...worst, longestS: Math.max(longestS, long) });
  return gaps;
}

function trapezoidEnergy({ t0, t1, p0, p1, from, to, switched }: Stretch): number {
  if (from === t0 && to === t1) return ((p0 + p1) / 2) * (to - from);
  if (switched && to === t1) return p1 * (to - from);
  if (switched && from === t0) return p0 * (to - from);
  const at = (time: number) => p0 + ((p1 - p0) * (time - t0)) / (t1 - t0);
  return ((at(from) + at(to)) / 2) * (to - from);
}

// A mean over an interval in which the power was switched holds all the energy of that interval; it stands at or
// between the levels before and after.
function stepEnergy({ t0, t1, p1, from, to, switched, halfway }: Stretch): number {
  return p1 * (switched || halfway ? t1 - t0 : to - from);
}

function doubtJ({ t0, t1, p0, p1, from, to }: Stretch, method: 'trapezoid' | 'step'): number {
  if (method === 'trapezoid') return (t1 - t0) * Math.abs(p1 - p0);
  const isCut = from !== t0 || to !== t1;
  return isCut ? (t1 - t0) * Math.min(Math.abs(p0), Math.abs(p1)) : 0;
}
