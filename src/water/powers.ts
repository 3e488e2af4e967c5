/**
 * Fills a table with the powers of a base from `lowest` (zero or less) to `highest` by repeated multiplication, so
 * that the bits are the same on every machine, which Math.pow does not promise. Power k is at index k − lowest.
 */
export function fillPowers(table: Float64Array, base: number, lowest: number, highest: number): void {
  table[-lowest] = 1;
  for (let k = 1; k <= highest; k++) table[k - lowest] = table[k - 1 - lowest]! * base;
  const inverse = 1 / base;
  for (let k = -1; k >= lowest; k--) table[k - lowest] = table[k + 1 - lowest]! * inverse;
}
