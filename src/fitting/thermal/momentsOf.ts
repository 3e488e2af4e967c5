import { stepWeights } from './stepWeights.js';
import type { Timeline } from './Timeline.js';

/** Terms of the series; the loops below are written out for them. */
export const terms = 5;

/**
 * Stretches of a timeline with what its power and ambient do in each, as coefficients of series in −(b − b₀): they hold
 * for any loss rate b near b₀. Segment s has entries from 5s on.
 */
export interface Moments {
  readonly nearRate: number;
  readonly segments: Segments;
  /** Σ share·e^(−b₀t)·tᵏ/k! over the readings of each segment, t from its beginning. */
  readonly reading: Float64Array;
  /** ∫e^(−b₀(L − s))·(L − s)ᵏ/k!·P ds over each segment, and Σ share of the same from 0 to t over its readings. */
  readonly power: DrivenMoments | null;
  readonly ambient: DrivenMoments | null;
}

export interface DrivenMoments {
  readonly end: Float64Array;
  readonly mean: Float64Array;
}

/** Where segments begin, in intervals, and one past the last; what they hold. */
export interface Segments {
  readonly first: Int32Array;
  /** Block whose readings lie in each; −1 for none. */
  readonly block: Int32Array;
  readonly lengthS: Float64Array;
  readonly longestS: number;
}

/** Cuts a timeline so that no segment holds readings of two blocks or, where intervals allow, is longer than `mostS`. */
export function segmentsOf({ intervals, widthS, block, firstBlock }: Timeline, mostS: number): Segments {
  const first: number[] = [0];
  const blocks: number[] = [];
  const lengths: number[] = [];
  let begin = 0;
  let own = firstBlock;
  let lengthS = 0;
  let longestS = 0;
  for (let i = 0; i < intervals; i += 1) {
    const k = block[i]!;
    const width = widthS[i]!;
    if (i > begin && ((k !== own && k >= 0 && own >= 0) || lengthS + width > mostS)) {
      first.push(i);
      blocks.push(own);
      lengths.push(lengthS);
      if (lengthS > longestS) longestS = lengthS;
      begin = i;
      own = -1;
      lengthS = 0;
    }
    if (k >= 0) own = k;
    lengthS += width;
  }
  first.push(intervals);
  blocks.push(own);
  lengths.push(lengthS);
  return {
    first: Int32Array.from(first),
    block: Int32Array.from(blocks),
    lengthS: Float64Array.from(lengths),
    longestS: Math.max(longestS, lengthS),
  };
}

/** Takes the moments near a loss rate, by one pass over the timeline for each of readings, power and ambient. */
export function momentsOf(
  line: Timeline,
  segments: Segments,
  share: Float64Array,
  nearRate: number,
): Moments {
  const driven = (from: Float64Array | null, to: Float64Array | null) =>
    from && to ? drivenMoments(line, segments, share, nearRate, from, to) : null;
  return {
    nearRate,
    segments,
    reading: readingMoments(line, segments, share, nearRate),
    power: driven(line.powerFromW, line.powerToW),
    ambient: driven(line.ambientFromK, line.ambientToK),
  };
}

function readingMoments(
  { widthS, block, firstBlock }: Timeline,
  { first, block: blocks }: Segments,
  share: Float64Array,
  rate: number,
): Float64Array {
  const out = new Float64Array(blocks.length * terms);
  let width = Number.NaN;
  let step = 1;
  for (let s = 0; s < blocks.length; s += 1) {
    let t = 0;
    let decay = 1;
    // The very first reading lies at t = 0 of the first segment.
    let n0 = s === 0 && firstBlock >= 0 ? 1 : 0;
    let n1 = 0;
    let n2 = 0;
    let n3 = 0;
    let n4 = 0;
    const end = first[s + 1]!;
    for (let i = first[s]!; i < end; i += 1) {
      if (widthS[i]! !== width) {
        width = widthS[i]!;
        step = Math.exp(-rate * width);
      }
      t += width;
      decay *= step;
      if (block[i]! < 0) continue;
      let w = decay;
      n0 += w;
      w *= t;
      n1 += w;
      w *= t;
      n2 += w;
      w *= t;
      n3 += w;
      n4 += w * t;
    }
    const own = blocks[s]!;
    if (own < 0) continue;
    const part = share[own]!;
    const at = s * terms;
    out[at] = part * n0;
    out[at + 1] = part * n1;
    out[at + 2] = (part * n2) / 2;
    out[at + 3] = (part * n3) / 6;
    out[at + 4] = (part * n4) / 24;
  }
  return out;
}

/**
 * Iₖ(t) = ∫₀ᵗe^(−b₀(t − s))·(t − s)ᵏ/k!·f ds, carried from node to node: Iₖ(t + h) = Σ Iₖ₋ⱼ(t)·e^(−b₀h)·hʲ/j! plus what the straight line
 * from f₀ to f₁ adds.
 */
function drivenMoments(
  { widthS, block }: Timeline,
  { first, block: blocks }: Segments,
  share: Float64Array,
  rate: number,
  from: Float64Array,
  to: Float64Array,
): DrivenMoments {
  const end = new Float64Array(blocks.length * terms);
  const mean = new Float64Array(blocks.length * terms);
  const w = new Float64Array(3 * terms);
  let width = Number.NaN;
  for (let s = 0; s < blocks.length; s += 1) {
    // One by one: numbers taken apart from an array are boxed.
    let i0 = 0;
    let i1 = 0;
    let i2 = 0;
    let i3 = 0;
    let i4 = 0;
    let m0 = 0;
    let m1 = 0;
    let m2 = 0;
    let m3 = 0;
    let m4 = 0;
    const stop = first[s + 1]!;
    for (let i = first[s]!; i < stop; i += 1) {
      if (widthS[i]! !== width) {
        width = widthS[i]!;
        stepWeights(rate, width, terms, w);
      }
      const f0 = from[i]!;
      const f1 = to[i]!;
      const a0 = w[0]!;
      const a1 = w[1]!;
      const a2 = w[2]!;
      const a3 = w[3]!;
      i4 = a0 * i4 + a1 * i3 + a2 * i2 + a3 * i1 + w[4]! * i0 + w[9]! * f0 + w[14]! * f1;
      i3 = a0 * i3 + a1 * i2 + a2 * i1 + a3 * i0 + w[8]! * f0 + w[13]! * f1;
      i2 = a0 * i2 + a1 * i1 + a2 * i0 + w[7]! * f0 + w[12]! * f1;
      i1 = a0 * i1 + a1 * i0 + w[6]! * f0 + w[11]! * f1;
      i0 = a0 * i0 + w[5]! * f0 + w[10]! * f1;
      if (block[i]! < 0) continue;
      m0 += i0;
      m1 += i1;
      m2 += i2;
      m3 += i3;
      m4 += i4;
    }
    const at = s * terms;
    end[at] = i0;
    end[at + 1] = i1;
    end[at + 2] = i2;
    end[at + 3] = i3;
    end[at + 4] = i4;
    const own = blocks[s]!;
    if (own < 0) continue;
    const part = share[own]!;
    mean[at] = part * m0;
    mean[at + 1] = part * m1;
    mean[at + 2] = part * m2;
    mean[at + 3] = part * m3;
    mean[at + 4] = part * m4;
  }
  return { end, mean };
}
