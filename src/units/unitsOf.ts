import type { QuantityKind } from './quantityKinds.js';
import { unitTable } from './unitTable.js';

/**
 * The symbols of all units of a kind, the SI unit first. More spellings than these are read.
 *
 * @example
 * unitsOf('temperature') // => ["K", "°C", "°F", "°R"]
 */
export function unitsOf(kind: QuantityKind): string[] {
  return unitTable[kind].map((row) => row[0]);
}
