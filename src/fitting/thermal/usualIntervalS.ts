/** As many intervals as this tell the usual one of a long series. */
const enough = 1000;

/** Median of the intervals of a series, of long ones from a sample; 0 for a single reading. */
export function usualIntervalS(timesS: ArrayLike<number>): number {
  const intervals = timesS.length - 1;
  if (intervals < 1) return 0;
  const stride = Math.max(1, Math.floor(intervals / enough));
  const widths = new Float64Array(Math.floor((intervals - 1) / stride) + 1);
  for (let k = 0; k < widths.length; k += 1) widths[k] = timesS[k * stride + 1]! - timesS[k * stride]!;
  return widths.sort()[widths.length >> 1]!;
}
