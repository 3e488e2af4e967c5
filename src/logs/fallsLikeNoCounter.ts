/**
 * Whether the numbers of an energy column go up and down as the energy of each interval does, and not as a counter
 * that rises and is set back once in a while. Missing values are passed over. A column that only falls stands with
 * the newest row first, and is not judged.
 *
 * @example
 * fallsLikeNoCounter([0, 2.5, 2.4, 2.5, 2.4, 0]) // => true
 * fallsLikeNoCounter([7, 8, 9, 0, 1, 2]) // => false
 */
export function fallsLikeNoCounter(values: Iterable<number>): boolean {
  let [rises, falls, before] = [0, 0, Number.NaN];
  for (const value of values) {
    if (value > before) rises++;
    if (value < before) falls++;
    if (!Number.isNaN(value)) before = value;
  }
  // A counter rises more often than it is set back; three falls in ten changes are no resets.
  return rises > 0 && falls > 0 && (falls >= rises || (falls >= 3 && 10 * falls > 3 * (rises + falls)));
}
