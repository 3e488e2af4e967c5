import type { Tally } from './outline/Tally.js';

/** The two levels of a switched power, and the threshold between them. */
export interface PowerLevels {
  readonly onW: number;
  readonly standbyW: number | null;
  readonly thresholdW: number;
}

// Less is standby, not heating (common practice, no source).
const leastHeatingW = 10;
// A tenth of the way up also takes in a holding stage far below full power (common practice, no source).
const thresholdShare = 0.1;
// Two classes whose medians are closer than this are one power that varies.
const apart = 3;

/**
 * Finds the on level and standby from all powers: the split that makes the two classes tightest (Otsu's method),
 * medians of the classes, threshold a tenth of the way up. One or two single spikes don't count. `null` where
 * no power reaches 10 W.
 */
export function powerLevels(powers: Tally): PowerLevels | null {
  const { values, counts } = powers.sorted();
  if (values.length === 0) return null;
  const capW = valueAt(values, counts, powers.total - 1 - Math.min(2, Math.floor(powers.total / 10)));
  const clipped = values.map((value) => Math.min(value, capW));
  const split = tightestSplit(clipped, counts);
  const low = medianOf(clipped.subarray(0, split), counts.subarray(0, split));
  const high = medianOf(clipped.subarray(split), counts.subarray(split));
  const onW = split > 0 && high > apart * low ? high : medianOf(clipped, counts);
  if (!(onW >= leastHeatingW)) return null;
  const below = clipped.findIndex((value) => value >= thresholdShare * onW);
  const standbyW = below > 0 ? medianOf(clipped.subarray(0, below), counts.subarray(0, below)) : null;
  const base = standbyW ?? 0;
  return { onW, standbyW, thresholdW: base + thresholdShare * (onW - base) };
}

function tightestSplit(values: Float64Array, counts: Float64Array): number {
  let [total, all] = [0, 0];
  for (let k = 0; k < values.length; k++) {
    total += values[k]! * counts[k]!;
    all += counts[k]!;
  }
  let [lowSum, lowCount, best, split] = [0, 0, 0, 0];
  for (let k = 1; k < values.length; k++) {
    lowSum += values[k - 1]! * counts[k - 1]!;
    lowCount += counts[k - 1]!;
    if (values[k] === values[k - 1]) continue;
    const highCount = all - lowCount;
    const between = lowCount * highCount * (lowSum / lowCount - (total - lowSum) / highCount) ** 2;
    if (between > best) {
      best = between;
      split = k;
    }
  }
  return split;
}

function medianOf(values: Float64Array, counts: Float64Array): number {
  const total = counts.reduce((sum, count) => sum + count, 0);
  return total === 0 ? 0 : valueAt(values, counts, Math.floor(total / 2));
}

/** The value that stands at `rank`, counted from 0, when each comes as often as it was counted. */
function valueAt(values: Float64Array, counts: Float64Array, rank: number): number {
  let before = 0;
  for (let i = 0; i < values.length; i++) {
    before += counts[i]!;
    if (before > rank) return values[i]!;
  }
  return values[values.length - 1]!;
}
