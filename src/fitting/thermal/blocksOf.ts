import { problem } from '../../errors/index.js';
import type { Prepared } from './Prepared.js';
import type { ThermalFitOptions } from './types.js';
import { usualIntervalS } from './usualIntervalS.js';

export type Blocks = Pick<Prepared, 'blockOf' | 'blockS' | 'share' | 'blockTimesS' | 'observedK' | 'gaps'>;

const usualBlockS = 60;

/**
 * Parts readings into blocks of equal length, 60 s unless stated, or the interval of the readings where that is longer.
 * Blocks with less than half of the usual number of readings are left out: their means scatter more than the others.
 */
export function blocksOf(
  timesS: Float64Array,
  temperaturesK: Float64Array,
  { blockS: asked = usualBlockS, leaveOut = [] }: Pick<ThermalFitOptions, 'blockS' | 'leaveOut'>,
): Blocks {
  if (!(asked > 0 && asked < Number.POSITIVE_INFINITY))
    throw problem('fit-input-bad', {
      what: 'The length of the blocks',
      expected: 'more than 0 s',
      got: `${asked} s`,
    });
  const blockS = Math.max(asked, usualIntervalS(timesS));
  const blockOf = new Int32Array(timesS.length);
  const places: number[] = [];
  const counts: number[] = [];
  let count = 0;
  let number = -1;
  // Where the block that is being filled ends.
  let endS = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < timesS.length; i += 1) {
    const t = timesS[i]!;
    if (leaveOut.length > 0 && isLeftOut(t, leaveOut)) {
      blockOf[i] = -1;
      continue;
    }
    if (t >= endS) {
      // Never the block before, whatever rounding makes of a time at its end.
      const place = Math.max(Math.floor(t / blockS), (places[number] ?? -1) + 1);
      endS = (place + 1) * blockS;
      if (count > 0) counts.push(count);
      places.push(place);
      number += 1;
      count = 0;
    }
    count += 1;
    blockOf[i] = number;
  }
  if (count > 0) counts.push(count);
  const kept = fullEnough(places, counts, blockOf);
  return { blockS, blockOf, ...means(kept, timesS, temperaturesK, blockOf) };
}

function isLeftOut(t: number, leaveOut: NonNullable<ThermalFitOptions['leaveOut']>): boolean {
  return leaveOut.some(({ fromS, toS }) => t >= fromS && t <= toS);
}

/** Drops blocks with few readings and numbers the others anew, in place. */
function fullEnough(places: readonly number[], counts: readonly number[], blockOf: Int32Array): number[] {
  const usual = [...counts].sort((a, b) => a - b)[counts.length >> 1] ?? 0;
  const numbers = new Int32Array(places.length).fill(-1);
  const kept: number[] = [];
  places.forEach((at, k) => {
    if (counts[k]! < usual / 2) return;
    numbers[k] = kept.length;
    kept.push(at);
  });
  if (kept.length < places.length)
    for (let i = 0; i < blockOf.length; i += 1) if (blockOf[i]! >= 0) blockOf[i] = numbers[blockOf[i]!]!;
  return kept;
}

function means(
  places: readonly number[],
  timesS: Float64Array,
  temperaturesK: Float64Array,
  blockOf: Int32Array,
) {
  const n = places.length;
  const share = new Float64Array(n);
  const blockTimesS = new Float64Array(n);
  const observedK = new Float64Array(n);
  // Less the first temperature, so that a sum of many keeps its digits.
  const zeroK = temperaturesK[0]!;
  for (let i = 0; i < blockOf.length; i += 1) {
    const block = blockOf[i]!;
    if (block < 0) continue;
    share[block]! += 1;
    blockTimesS[block]! += timesS[i]!;
    observedK[block]! += temperaturesK[i]! - zeroK;
  }
  for (let k = 0; k < n; k += 1) {
    share[k] = 1 / share[k]!;
    blockTimesS[k]! *= share[k]!;
    observedK[k] = observedK[k]! * share[k]! + zeroK;
  }
  const gaps = Int32Array.from(places, (at, k) => (k === 0 ? 0 : at - places[k - 1]!));
  return { share, blockTimesS, observedK, gaps };
}
