import type { Readings } from '../Readings.js';
import { type TemperatureMean, meanWidthS, temperatureMeans } from './temperatureMeans.js';

/** The stretch in which a temperature rises as it does when it is heated. */
export interface ClearRise {
  readonly fromS: number;
  readonly toS: number;
  /** Both limits lie within one piece. */
  readonly widthS: number;
  readonly riseK: number;
  /** The temperature rises from the first piece on, or up to the last one. */
  readonly atStart: boolean;
  readonly atEnd: boolean;
}

const fewestPieces = 8;
const leastRiseK = 5;
const leastSteps = 20;

/**
 * Finds the heating from a temperature alone: where the means of 60 s rise at least half as fast as in the middle of
 * the rise, from a fifth to four fifths of it (common practice, no source). A rise of 5 K and 20 steps of the
 * thermometer is asked for. In words why there is none.
 */
export function clearRise(readings: Readings): ClearRise | { readonly why: string } {
  const { outline, resolution } = readings;
  const widthS = meanWidthS(readings, outline.endS);
  const means = temperatureMeans(readings, { fromS: 0, toS: outline.endS }, widthS);
  if (means.length < fewestPieces)
    return { why: `the temperature log has fewer than ${fewestPieces} means of 60 s` };
  const peak = indexOfMost(means, (mean) => mean.meanK);
  const base = indexOfMost(means.slice(0, peak + 1), (mean) => -mean.meanK);
  const riseK = means[peak]!.meanK - means[base]!.meanK;
  if (!(riseK >= leastRiseK && riseK >= leastSteps * (resolution.temperatureK ?? 0)))
    return { why: `the temperature rises by no more than ${Number(riseK.toPrecision(2))} K` };
  const rates = means.slice(1).map((mean, i) => (mean.meanK - means[i]!.meanK) / (mean.toS - means[i]!.toS));
  const half = middleRate(means, rates, base, peak, riseK) / 2;
  // Two rates in succession, so that one noisy mean makes no beginning.
  const first = rates.findIndex((rate, i) => i >= base && rate >= half && (rates[i + 1] ?? rate) >= half);
  const last = rates.findLastIndex((rate, i) => i < peak && rate >= half);
  if (first < 0 || last <= first) return { why: 'the temperature doesn’t rise steadily' };
  return {
    fromS: first === 0 ? 0 : (means[first]!.fromS + means[first]!.toS) / 2,
    toS: last === rates.length - 1 ? outline.endS : (means[last + 1]!.fromS + means[last + 1]!.toS) / 2,
    widthS,
    riseK,
    atStart: first === 0,
    atEnd: last === rates.length - 1,
  };
}

/** The median rate between a fifth and four fifths of the rise. */
function middleRate(
  means: readonly TemperatureMean[],
  rates: readonly number[],
  base: number,
  peak: number,
  riseK: number,
): number {
  const share = (i: number) => (means[i]!.meanK - means[base]!.meanK) / riseK;
  const middle = rates.filter((_, i) => i >= base && i < peak && share(i) >= 0.2 && share(i + 1) <= 0.8);
  const sorted = (middle.length > 0 ? middle : rates.slice(base, peak)).sort((a, b) => a - b);
  return sorted[sorted.length >> 1]!;
}

function indexOfMost<T>(items: readonly T[], value: (item: T) => number): number {
  let most = 0;
  for (let i = 1; i < items.length; i++) if (value(items[i]!) > value(items[most]!)) most = i;
  return most;
}
