import type { Timeline } from './Timeline.js';

/** A series on the clock of the logs. */
export interface Checked {
  readonly timesS: Float64Array;
  readonly values: Float64Array;
  readonly step?: boolean;
}

/**
 * Merges the times of readings, power and ambient, from the first reading to the last. `timesS` is relative to
 * `originS`, the other series are not.
 */
export function mergeTimes(
  timesS: Float64Array,
  blockOf: Int32Array,
  power: Checked | null,
  ambient: number | Checked,
  originS: number,
): Timeline {
  const logged = typeof ambient === 'number' ? null : ambient;
  const referenceK = logged ? logged.values[0]! : (ambient as number);
  const own = [power, logged].flatMap((series) => (series ? [shifted(series.timesS, originS)] : []));
  const nodes = nodesOf(timesS, own);
  const intervals = nodes.length - 1;
  const widthS = widthsOf(nodes, originS);
  const powers = power ? ends(nodes, own[0]!, power.values, power.step === true, 0) : null;
  const ambients = logged ? ends(nodes, own[own.length - 1]!, logged.values, false, referenceK) : null;
  const { block, reading } = readingsAt(nodes, timesS, blockOf);
  return {
    intervals,
    widthS,
    powerFromW: powers?.from ?? null,
    powerToW: powers?.to ?? null,
    ambientFromK: ambients?.from ?? null,
    ambientToK: ambients?.to ?? null,
    referenceK,
    block,
    reading,
    firstBlock: blockOf[0]!,
  };
}

/**
 * Widths of the intervals. Those that differ from the one before by rounding only are taken as the same, so that what is
 * computed for a width serves all intervals of a regular log.
 */
function widthsOf(nodes: Float64Array, originS: number): Float64Array {
  const intervals = nodes.length - 1;
  const rounding = 4 * Number.EPSILON * (Math.abs(originS) + nodes[intervals]!);
  const widthS = new Float64Array(intervals);
  let before = 0;
  for (let i = 0; i < intervals; i += 1) {
    const width = nodes[i + 1]! - nodes[i]!;
    if (Math.abs(width - before) > rounding) before = width;
    widthS[i] = before;
  }
  return widthS;
}

/** Which reading stands at the end of each interval, and its block. */
function readingsAt(nodes: Float64Array, timesS: Float64Array, blockOf: Int32Array) {
  if (nodes === timesS) return { block: blockOf.subarray(1), reading: null };
  const intervals = nodes.length - 1;
  const reading = new Int32Array(intervals);
  const block = new Int32Array(intervals);
  let next = 1;
  for (let i = 0; i < intervals; i += 1) {
    const here = nodes[i + 1]! === timesS[next];
    reading[i] = here ? next : -1;
    block[i] = here ? blockOf[next]! : -1;
    if (here) next += 1;
  }
  return { block, reading };
}

/** Times less an origin. */
export function shifted(timesS: Float64Array, originS: number): Float64Array {
  if (originS === 0) return timesS;
  const times = new Float64Array(timesS.length);
  for (let i = 0; i < times.length; i += 1) times[i] = timesS[i]! - originS;
  return times;
}

/** All different times from the first to the last of `timesS`, in order. */
function nodesOf(timesS: Float64Array, others: readonly Float64Array[]): Float64Array {
  const first = timesS[0]!;
  const last = timesS[timesS.length - 1]!;
  const strangers = others.filter((times) => !isSame(times, timesS));
  if (strangers.length === 0) return timesS;
  const within = strangers.map((times) => times.filter((t) => t > first && t < last));
  const all = new Float64Array(within.reduce((sum, { length }) => sum + length, timesS.length));
  all.set(timesS);
  let at = timesS.length;
  for (const times of within) {
    all.set(times, at);
    at += times.length;
  }
  all.sort();
  let kept = 1;
  for (let i = 1; i < all.length; i += 1) if (all[i]! > all[kept - 1]!) all[kept++] = all[i]!;
  return all.subarray(0, kept);
}

function isSame(a: Float64Array, b: Float64Array): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return false;
  return true;
}

/** Values of a series at both ends of each interval; beyond its own ends it is held. */
function ends(
  nodes: Float64Array,
  times: Float64Array,
  values: Float64Array,
  step: boolean,
  zero: number,
): { from: Float64Array; to: Float64Array } {
  const intervals = nodes.length - 1;
  if (zero === 0 && isSame(times, nodes))
    return {
      from: values.subarray(0, intervals),
      to: step ? values.subarray(0, intervals) : values.subarray(1),
    };
  const from = new Float64Array(intervals);
  const to = new Float64Array(intervals);
  const last = times.length - 1;
  let k = 0;
  for (let i = 0; i < intervals; i += 1) {
    const begin = nodes[i]!;
    while (k < last && times[k + 1]! <= begin) k += 1;
    const earlier = times[k]!;
    const a = values[k]! - zero;
    if (step || k === last || earlier > begin) {
      from[i] = a;
      to[i] = a;
      continue;
    }
    const slope = (values[k + 1]! - zero - a) / (times[k + 1]! - earlier);
    from[i] = a + slope * (begin - earlier);
    to[i] = a + slope * (nodes[i + 1]! - earlier);
  }
  return { from, to };
}
