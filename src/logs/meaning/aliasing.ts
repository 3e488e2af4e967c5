import type { Readings } from '../Readings.js';
import { type CycleStats, cycleStats } from './cycleStats.js';
import { countWords, digits } from './words.js';

/** The doubt that the sampling of a cycling load leaves in its energy, beyond that of each single switching. */
export interface Aliasing {
  /** Comes on top of the `samplingUJ` of the integral, in quadrature. */
  readonly extraUJ: number;
  /** Whole cycles may lie between two readings. */
  readonly cyclesMayBeMissed: boolean;
  readonly evidence: string;
}

const fewestPauses = 3;
const shortSamples = 2;

/**
 * Energy doubt of a sampled cycling load. Each switching lies anywhere between two readings (rectangular); where all
 * cycles are equal in number of readings the log walks in step with the heater, and all of them err alike. Where on
 * or off lasts no more than two readings, cycles may be missed: then the readings are draws of on or off, and the
 * share on has the standard deviation √(d(1 − d)/n) of a binomial count (JCGM 100, 4.2.2; independent draws).
 */
export function aliasing(
  readings: Readings,
  limits: { readonly fromS: number; readonly toS: number },
): Aliasing {
  const stats = cycleStats(readings, limits);
  if (!stats || stats.pauses === 0) {
    const evidence =
      'the log shows no pause of the heater; one that switches in step with the readings would not show in any log';
    return { extraUJ: 0, cyclesMayBeMissed: false, evidence };
  }
  const stepW = stats.onW - stats.offW;
  const durationS = limits.toS - limits.fromS;
  const missing = cyclesMayBeMissed(stats);
  const share = stats.onS / durationS;
  const drawnS2 = missing ? (durationS ** 2 * share * (1 - share)) / stats.samples : 0;
  const extraS2 = Math.max(0, stats.alikeS2 - stats.freeS2, drawnS2 - stats.freeS2);
  return {
    extraUJ: stepW * Math.sqrt(extraS2),
    cyclesMayBeMissed: missing,
    evidence: evidenceOf(stats, missing, share, drawnS2 > stats.alikeS2),
  };
}

/** On or off phases as short as two readings are the rule. */
export function cyclesMayBeMissed({ pauses, onSamples, offSamples }: CycleStats): boolean {
  if (pauses < fewestPauses || onSamples.total === 0) return false;
  return onSamples.median() <= shortSamples || offSamples.median() <= shortSamples;
}

function evidenceOf(stats: CycleStats, missing: boolean, share: number, drawn: boolean): string {
  const runs = `on for ${digits(stats.onSamples.median())} and off for ${digits(stats.offSamples.median())} readings at a time (medians)`;
  if (missing && drawn) {
    return `the heater is ${runs}, so whole cycles may lie between two readings; ${stats.samples} readings taken as independent draws of a heater that is on for ${digits(100 * share, 3)} % of the time`;
  }
  if (stats.alikeS2 > 1.5 * stats.freeS2) {
    return `the heater pauses ${countWords(stats.pauses, 'time')} in cycles of equal numbers of readings, so that the errors of their switchings may all be alike`;
  }
  return `the heater pauses ${countWords(stats.pauses, 'time')}, and the readings don't walk in step with it`;
}
