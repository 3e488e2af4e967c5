import type { QuantityRole } from '../types.js';

/** No meter shows more than a terawatt or a terajoule: such a cell is spoilt. */
export const largestSi = 1e12;

/** Milliseconds since 1970, some 300 years of them, are the largest times that make sense. */
export const largestTime = 1e13;

/** The least value in SI that makes sense: no temperature is below 0 K. */
export function leastSi(role: QuantityRole): number {
  return role === 'temperature' ? 0 : -largestSi;
}
