import { type Place, problem } from '../errors/index.js';
import { toSi } from './conversion.js';
import type { QuantityKind } from './quantityKinds.js';
import { resolveUnit } from './resolveUnit.js';

/**
 * The SI value of a value in a unit of its kind: `value × numerator / denominator` of the exact table, for °C and °F
 * reckoned from 273.15 K.
 * Errors: `value-not-finite`, `below-absolute-zero`, `unit-unknown`, `unit-ambiguous`, `unit-of-other-kind`.
 * Source of the factors: NIST SP 811 (2008), appendix B.8, and the SI brochure.
 *
 * @example
 * fromUnit(9.3, 'mass', 'lb') // => 4.21840904
 * fromUnit(61, 'temperature', '°F') // => 289.2611
 */
export function fromUnit(value: number, kind: QuantityKind, unit: string, place: Place = {}): number {
  const si = toSi(value, resolveUnit(unit, kind, place));
  if (!Number.isFinite(si))
    throw problem('value-not-finite', { what: 'A quantity', got: `${value} ${unit}` }, place);
  if (kind === 'temperature' && si < 0)
    throw problem('below-absolute-zero', { got: `${value} ${unit}` }, place);
  return si;
}
