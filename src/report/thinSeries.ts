/**
 * Which samples of a long series to draw so that its picture stays the same: the series is cut into stretches of
 * equal count, and of each the lowest and the highest sample are kept, and one unknown sample (NaN) where there is
 * one, so that a gap stays a gap. First and last sample are kept. Peaks keep their height and their place.
 *
 * Returns indices, ascending, at most `most` of them (never fewer than 5 are allowed for); all of them where there
 * are no more than `most`.
 *
 * @example
 * thinSeries([0, 1, 9, 1, 0, 0, 0, -4, 0, 0], 6) // => [0, 2, 4, 5, 7, 9]
 * thinSeries([1, 2, 3], 1000) // => [0, 1, 2]
 */
export function thinSeries(values: ArrayLike<number>, most: number): number[] {
  const count = values.length;
  const limit = Math.max(5, Math.floor(most));
  if (count <= limit) return Array.from({ length: count }, (_, i) => i);
  // Two samples of each stretch, three where it has an unknown one, and the two ends.
  const stretches = Math.max(1, Math.floor((limit - 2) / (hasUnknown(values) ? 3 : 2)));
  const kept = new Set([0, count - 1]);
  for (let k = 0; k < stretches; k++) {
    const from = 1 + Math.floor((k * (count - 2)) / stretches);
    const to = 1 + Math.floor(((k + 1) * (count - 2)) / stretches);
    for (const index of extremes(values, from, to)) kept.add(index);
  }
  return [...kept].sort((a, b) => a - b);
}

function hasUnknown(values: ArrayLike<number>): boolean {
  for (let i = 0; i < values.length; i++) if (Number.isNaN(values[i])) return true;
  return false;
}

/** Lowest, highest and first unknown sample of a stretch. */
function extremes(values: ArrayLike<number>, from: number, to: number): number[] {
  let lowest = -1;
  let highest = -1;
  let unknown = -1;
  for (let i = from; i < to; i++) {
    const value = values[i] as number;
    if (Number.isNaN(value)) {
      if (unknown < 0) unknown = i;
      continue;
    }
    if (lowest < 0 || value < (values[lowest] as number)) lowest = i;
    if (highest < 0 || value > (values[highest] as number)) highest = i;
  }
  return [lowest, highest, unknown].filter((index) => index >= 0);
}
