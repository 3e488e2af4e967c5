import { fromSi } from './conversion.js';
import type { QuantityKind } from './quantityKinds.js';
import { resolveUnit } from './resolveUnit.js';

/**
 * The value of an SI quantity in a unit of its kind: `si × denominator / numerator` of the exact table.
 * Absolute temperatures are kelvin inside; a difference is another kind, without a shifted zero.
 * Errors: `unit-unknown`, `unit-ambiguous`, `unit-of-other-kind`. Not a number stays not a number.
 * Source of the factors: NIST SP 811 (2008), appendix B.8, and the SI brochure.
 *
 * @example
 * toUnit(3_600_000, 'energy', 'kWh') // => 1
 * toUnit(293.15, 'temperature', '°F') // => 68
 * toUnit(5, 'temperatureDifference', '°F') // => 9
 */
export function toUnit(si: number, kind: QuantityKind, unit: string): number {
  return fromSi(si, resolveUnit(unit, kind));
}
