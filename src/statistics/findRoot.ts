/** What a function is at a point, with its derivative. */
export interface ValueAndSlope {
  readonly value: number;
  readonly slope: number;
}

const maxSteps = 200;
const precision = 2e-15;

/**
 * Root of an increasing function inside [low, high]: Newton steps, and bisection whenever a step leaves the
 * bracket or shrinks too slowly. Always ends, at the latest when the bracket is as small as doubles allow; a
 * function that jumps over zero gives the place of the jump. `scale` is the size of x below which relative precision
 * no longer matters.
 */
export function findRoot(
  at: (x: number) => ValueAndSlope,
  bracket: readonly [number, number],
  start: number,
  scale = 1,
): number {
  let [low, high] = bracket;
  let x = start > low && start < high ? start : (low + high) / 2;
  let lastStep = high - low;
  for (let n = 0; n < maxSteps; n += 1) {
    const { value, slope } = at(x);
    if (value === 0) return x;
    if (value < 0) low = x;
    else high = x;
    let next = x - value / slope;
    // Newton may wander where the function bends; halving the bracket then bounds the number of steps.
    if (!(next > low && next < high) || Math.abs(next - x) > lastStep / 2) next = (low + high) / 2;
    lastStep = Math.abs(next - x);
    x = next;
    if (lastStep <= precision * Math.max(scale, Math.abs(x)) || !(x > low && x < high)) return x;
  }
  return x;
}
