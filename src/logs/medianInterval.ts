/** The median of the intervals between times, repeats and steps backward not counted; 0 where there is none. */
export function medianInterval(timesS: Float64Array): number {
  const intervals = new Float64Array(Math.max(0, timesS.length - 1));
  let count = 0;
  for (let i = 1; i < timesS.length; i++) {
    const interval = timesS[i]! - timesS[i - 1]!;
    if (interval > 0) intervals[count++] = interval;
  }
  if (count === 0) return 0;
  const sorted = intervals.subarray(0, count).sort();
  return sorted[count >> 1]!;
}
