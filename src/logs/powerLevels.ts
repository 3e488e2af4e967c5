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
export function powerLevels(powerW: Float64Array): PowerLevels | null {
  const sorted = powerW.filter(Number.isFinite).sort();
  if (sorted.length === 0) return null;
  const cap = sorted[sorted.length - 1 - Math.min(2, Math.floor(sorted.length / 10))]!;
  const clipped = sorted.map((value) => Math.min(value, cap));
  const split = tightestSplit(clipped);
  const low = medianOf(clipped.subarray(0, split));
  const high = medianOf(clipped.subarray(split));
  const onW = split > 0 && high > apart * low ? high : medianOf(clipped);
  if (!(onW >= leastHeatingW)) return null;
  const below = clipped.filter((value) => value < thresholdShare * onW);
  const standbyW = below.length > 0 ? medianOf(below) : null;
  const base = standbyW ?? 0;
  return { onW, standbyW, thresholdW: base + thresholdShare * (onW - base) };
}

function tightestSplit(sorted: Float64Array): number {
  const total = sorted.reduce((sum, value) => sum + value, 0);
  let lowSum = 0;
  let best = 0;
  let split = 0;
  for (let k = 1; k < sorted.length; k++) {
    lowSum += sorted[k - 1]!;
    if (sorted[k] === sorted[k - 1]) continue;
    const between = k * (sorted.length - k) * (lowSum / k - (total - lowSum) / (sorted.length - k)) ** 2;
    if (between > best) {
      best = between;
      split = k;
    }
  }
  return split;
}

function medianOf(sorted: Float64Array): number {
  return sorted.length === 0 ? 0 : sorted[sorted.length >> 1]!;
}
