import { integrateEnergy } from '../integrateEnergy.js';
import type { Readings } from '../Readings.js';
import { readingsOf } from '../readingsOf.js';
import type { Log } from '../types.js';
import { type CycleStats, cycleStats } from './cycleStats.js';
import { countWords, digits, wattWords } from './words.js';

/** How a thermostat switched its heater. */
export interface DutyCycle {
  readonly onW: number;
  /** Mean power while it pauses. */
  readonly offW: number;
  /** Pauses between two switch-ons. */
  readonly pauses: number;
  /** From one switch-on to the next: mean, and standard deviation of a single cycle (`null` for one cycle). */
  readonly cycleS: number;
  readonly cycleSpreadS: number | null;
  /** Share of the time between the limits in which it was on. */
  readonly onShare: number;
  /** Standard uncertainty of the share: each switching lies anywhere between two readings. */
  readonly onShareU: number;
  readonly meanPowerW: number;
}

/** Either a duty cycle, or why there is none. */
export interface DutyCycleFound {
  readonly dutyCycle: DutyCycle | null;
  /** In words. */
  readonly evidence: string;
}

const fewestPauses = 2;

/**
 * On and off power, cycle time, share of time on and mean power of a heater that a thermostat switches. On is from
 * 60 % of the way between standby and the on level, off below 40 %. Two pauses make a cycle; with fewer there is
 * none, and the evidence says so. Where all cycles are equal in number of readings, their switchings are taken to
 * err alike.
 *
 * Units: seconds after the first sample, watts; shares from 0 to 1.
 * Errors: those of `integrateEnergy`.
 *
 * @example
 * const rows = [900, 900, 0, 0, 0, 900, 900, 0, 0, 0, 900, 900].map((watts, i) => `${10 * i},${watts}`);
 * const log = readExport(new TextEncoder().encode(`t [s],P [W]\n${rows.join('\n')}\n`));
 * const { dutyCycle: found } = dutyCycle(log, { fromS: 0, toS: 110 });
 * found.cycleS // => 50
 * found.onW // => 900
 */
export function dutyCycle(
  log: Log | Readings,
  limits: { readonly fromS: number; readonly toS: number },
): DutyCycleFound {
  const readings = readingsOf(log);
  if (!readings.has.power) return none('the log has no power');
  const stats = cycleStats(readings, limits);
  if (!stats) return none('the log shows no heating');
  if (stats.pauses < fewestPauses || stats.cycles.count === 0)
    return none(
      stats.pauses === 0
        ? 'the heater never pauses'
        : `the heater pauses only ${countWords(stats.pauses, 'time')}`,
    );
  const durationS = limits.toS - limits.fromS;
  const { meanPowerW } = integrateEnergy(readings, limits);
  const found: DutyCycle = {
    onW: stats.onW,
    offW: stats.offW,
    pauses: stats.pauses,
    cycleS: stats.cycles.meanS,
    cycleSpreadS: stats.cycles.count > 1 ? stats.cycles.spreadS : null,
    onShare: stats.onS / durationS,
    onShareU: Math.sqrt(Math.max(stats.freeS2, stats.alikeS2)) / durationS,
    meanPowerW,
  };
  return { dutyCycle: found, evidence: wordsOf(found, stats) };
}

function none(evidence: string): DutyCycleFound {
  return { dutyCycle: null, evidence };
}

function wordsOf(
  { onW, offW, pauses, cycleS, onShare, onShareU }: DutyCycle,
  { cycles }: CycleStats,
): string {
  const spread = cycles.count > 1 ? ` (spread ${digits(cycles.spreadS, 2)} s)` : '';
  return `${countWords(pauses, 'pause')}: ${wattWords(onW)} on, ${wattWords(offW)} off, one cycle in ${digits(cycleS)} s${spread}, on for ${digits(100 * onShare, 3)} % of the time (standard uncertainty ${digits(100 * onShareU, 2)} %)`;
}
