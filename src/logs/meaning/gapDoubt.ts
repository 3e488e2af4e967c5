import { HeatledgerError } from '../../errors/index.js';
import { counterEnergy } from '../counterEnergy.js';
import type { Readings } from '../Readings.js';
import type { Stretch } from '../stretchesIn.js';
import { levelsOf } from './levelsOf.js';
import { longStretches } from './longStretches.js';

/** The doubt of the gaps that were bridged. */
export interface GapDoubt {
  readonly count: number;
  readonly totalS: number;
  readonly longest: { readonly fromS: number; readonly toS: number } | null;
  /** Comes on top of the `samplingUJ` of the integral, in quadrature. */
  readonly extraUJ: number;
  /** Gaps over which the energy counter went on. */
  readonly counted: number;
}

/**
 * What bridging the gaps leaves open. The heater may have been on or off in the gap: the true energy lies anywhere
 * between the two levels over its length (rectangular, JCGM 100, 4.3.7), and the uncertainty is about the bridged
 * value, √(R²/12 + (middle − bridged)²). Where the counter went on, it says what passed, to its step.
 */
export function gapDoubt(
  readings: Readings,
  limits: { readonly fromS: number; readonly toS: number },
): GapDoubt {
  const sums = { count: 0, totalS: 0, longestS: 0, variance: 0, counted: 0 };
  let longest: GapDoubt['longest'] = null;
  longStretches(readings, limits, (stretch) => {
    const lengthS = Math.min(stretch.t1, limits.toS) - Math.max(stretch.t0, limits.fromS);
    const { variance, counted } = doubtOf(readings, stretch, lengthS);
    sums.count++;
    sums.totalS += lengthS;
    if (counted) sums.counted++;
    // The trapezoid has counted the change of power across the gap already.
    sums.variance += Math.max(0, variance - (lengthS * (stretch.p1 - stretch.p0)) ** 2 / 12);
    if (lengthS <= sums.longestS) return;
    sums.longestS = lengthS;
    longest = { fromS: stretch.t0, toS: stretch.t1 };
  });
  const { count, totalS, counted } = sums;
  return { count, totalS, longest, counted, extraUJ: Math.sqrt(sums.variance) };
}

function doubtOf(readings: Readings, { t0, t1, p0, p1 }: Stretch, lengthS: number) {
  const levels = levelsOf(readings);
  const lowW = Math.min(levels?.standbyW ?? 0, p0, p1);
  const highW = Math.max(levels?.onW ?? 0, p0, p1);
  const bridgedW = (p0 + p1) / 2;
  const range = ((highW - lowW) ** 2 / 12 + ((highW + lowW) / 2 - bridgedW) ** 2) * lengthS ** 2;
  const count = countedOver(readings, t0, t1);
  if (!count) return { variance: range, counted: false };
  const apartJ = count.energyJ - bridgedW * (t1 - t0);
  const counted = apartJ ** 2 + count.resolutionJ ** 2 / 6;
  return { variance: Math.min(range, counted), counted: true };
}

function countedOver(readings: Readings, fromS: number, toS: number) {
  try {
    const count = counterEnergy(readings, { fromS, toS });
    return count && count.resets === 0 ? count : null;
  } catch (error) {
    if (error instanceof HeatledgerError) return null;
    throw error;
  }
}
