import type { Readings } from '../Readings.js';
import { type TemperatureMean, meanWidthS, temperatureMeans, widerMeans } from './temperatureMeans.js';

/** Where the cool-down begins, and the pieces that show it. */
export interface CoolDownFound {
  readonly fromS: number;
  readonly widthS: number;
  readonly highest: TemperatureMean;
}

const fallingMeans = 3;

/**
 * After switch-off the temperature still rises, turns, and then falls. The cool-down begins where, after the highest
 * of the means, three in succession each lie below the one before, together by more than two steps of the
 * thermometer (common practice, no source). Means are of 60 s; pieces twice as long and so on are tried where the fall
 * is too slow for that. `null` where the temperature doesn't fall steadily before the end.
 */
export function coolDownFrom(
  readings: Readings,
  limits: { readonly fromS: number; readonly toS: number },
): CoolDownFound | null {
  const widthS = meanWidthS(readings, limits.toS - limits.fromS);
  const stepK = readings.resolution.temperatureK ?? 0;
  for (
    let means = temperatureMeans(readings, limits, widthS);
    means.length > fallingMeans;
    means = widerMeans(means)
  ) {
    const found = steadyFall(means, stepK);
    if (found) return found;
  }
  return null;
}

function steadyFall(means: readonly TemperatureMean[], stepK: number): CoolDownFound | null {
  let top = 0;
  for (let i = 1; i < means.length; i++) if (means[i]!.meanK > means[top]!.meanK) top = i;
  for (let i = top; i + fallingMeans < means.length; i++) {
    const four = means.slice(i, i + fallingMeans + 1);
    const falls = four.every((mean, k) => k === 0 || mean.meanK < four[k - 1]!.meanK);
    if (!falls || four[0]!.meanK - four[fallingMeans]!.meanK <= 2 * stepK) continue;
    const { fromS, toS } = four[1]!;
    return { fromS, widthS: toS - fromS, highest: means[top]! };
  }
  return null;
}
