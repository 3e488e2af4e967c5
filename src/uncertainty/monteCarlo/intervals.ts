import { ascending } from './ascending.js';

/** Both coverage intervals of a sample. */
export interface Intervals {
  readonly symmetric: readonly [number, number];
  readonly shortest: readonly [number, number];
}

/** Below this many values a full sort costs least. */
const SMALL = 20_000;
const PROBES = 8192;

/**
 * The probabilistically symmetric and the shortest coverage interval by order statistics: JCGM 101 7.7. Of M values
 * q = the whole number next to pM lie within; only the M − q lowest and the M − q highest can be ends, so only these are sorted.
 */
export function intervals(values: Float64Array, coverage: number): Intervals {
  const count = values.length;
  const within = Math.min(count - 1, Math.floor(coverage * count + 0.5));
  const outside = count - within;
  const [lowest, highest] = tails(values, outside);
  const middle = Math.floor((outside + 1) / 2) - 1;
  let best = 0;
  for (let r = 1; r < outside; r++) if (highest[r]! - lowest[r]! < highest[best]! - lowest[best]!) best = r;
  const from = (r: number) => [lowest[r] as number, highest[r] as number] as const;
  return { symmetric: from(middle), shortest: from(best) };
}

/** The `count` lowest and the `count` highest values, each in ascending order. */
function tails(values: Float64Array, count: number): [Float64Array, Float64Array] {
  if (values.length >= SMALL && count < values.length / 4) {
    const quick = tailsByProbes(values, count);
    if (quick) return quick;
  }
  const sorted = ascending(values);
  return [sorted.subarray(0, count), sorted.subarray(sorted.length - count)];
}

/**
 * The tails by way of thresholds from evenly spaced probes: with four standard errors to spare, one pass finds all
 * that can belong to a tail and little more. Null where a threshold turns out too tight.
 */
function tailsByProbes(values: Float64Array, count: number): [Float64Array, Float64Array] | null {
  const stride = Math.floor(values.length / PROBES) || 1;
  const probes = new Float64Array(Math.floor(values.length / stride));
  for (let i = 0; i < probes.length; i++) probes[i] = values[i * stride]!;
  probes.sort();
  const share = count / values.length;
  const spare = 4 * Math.sqrt(probes.length * share * (1 - share)) + 2;
  const rank = Math.min(probes.length - 1, Math.ceil(share * probes.length + spare));
  const low = probes[rank]!;
  const high = probes[probes.length - 1 - rank]!;
  const most = Math.min(values.length, Math.ceil(count * 1.5 + (8 * spare * values.length) / probes.length));
  const lowest = new Float64Array(most);
  const highest = new Float64Array(most);
  let lows = 0;
  let highs = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (value <= low) lowest[lows++] = value;
    if (value >= high) highest[highs++] = value;
  }
  // Writes past the end were dropped: the counts tell.
  if (lows < count || highs < count || lows > most || highs > most) return null;
  const upper = ascending(highest.subarray(0, highs));
  return [ascending(lowest.subarray(0, lows)).subarray(0, count), upper.subarray(highs - count)];
}
