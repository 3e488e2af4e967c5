const BITS = 11;
const BUCKETS = 1 << BITS;
const PASSES = 6;
/** Below this many values the general sort is as quick. */
const SMALL = 4096;

const littleEndian = new Uint32Array(Float64Array.of(1).buffer)[0] === 0;

/** Bits `11·pass` to `11·pass + 10` of the 64 of a number. */
function digit(low: number, high: number, pass: number): number {
  switch (pass) {
    case 0:
      return low & 2047;
    case 1:
      return (low >>> 11) & 2047;
    case 2:
      return (low >>> 22) | ((high & 1) << 10);
    case 3:
      return (high >>> 1) & 2047;
    case 4:
      return (high >>> 12) & 2047;
    default:
      return high >>> 23;
  }
}

/**
 * A sorted copy. A sort by digits of the bits, lowest first, which takes half the time of a sort by comparison: with the
 * sign bit turned, and all bits of negative numbers, the bits are in the order of the numbers.
 */
export function ascending(values: Float64Array): Float64Array {
  if (values.length < SMALL || !littleEndian) return Float64Array.from(values).sort();
  let from = new Uint32Array(Float64Array.from(values).buffer);
  let to = new Uint32Array(from.length);
  const counts = new Uint32Array(PASSES * BUCKETS);
  for (let i = 0; i < from.length; i += 2) {
    const negative = from[i + 1]! >>> 31 !== 0;
    const low = negative ? ~from[i]! : from[i]!;
    const high = negative ? ~from[i + 1]! : from[i + 1]! ^ 0x80000000;
    from[i] = low;
    from[i + 1] = high;
    for (let pass = 0; pass < PASSES; pass++) counts[pass * BUCKETS + digit(low, high, pass)]!++;
  }
  for (let pass = 0; pass < PASSES; pass++) {
    distribute(from, to, counts.subarray(pass * BUCKETS, (pass + 1) * BUCKETS), pass);
    [from, to] = [to, from];
  }
  for (let i = 0; i < from.length; i += 2) {
    const negative = from[i + 1]! >>> 31 === 0;
    if (negative) from[i] = ~from[i]!;
    from[i + 1] = negative ? ~from[i + 1]! : from[i + 1]! ^ 0x80000000;
  }
  return new Float64Array(from.buffer);
}

/** One pass: each number to the next place of its digit. */
function distribute(from: Uint32Array, to: Uint32Array, counts: Uint32Array, pass: number): void {
  let place = 0;
  for (let bucket = 0; bucket < BUCKETS; bucket++) {
    const count = counts[bucket]!;
    counts[bucket] = place;
    place += count;
  }
  for (let i = 0; i < from.length; i += 2) {
    const low = from[i]!;
    const high = from[i + 1]!;
    const at = 2 * counts[digit(low, high, pass)]!++;
    to[at] = low;
    to[at + 1] = high;
  }
}
