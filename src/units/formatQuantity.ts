import { problem } from '../errors/index.js';
import { fromSi } from './conversion.js';
import type { Unit } from './findUnit.js';
import type { QuantityKind } from './quantityKinds.js';
import { resolveUnit } from './resolveUnit.js';

/**
 * An SI quantity as text in a unit of its kind: decimal point, no grouping, a blank before the unit, the same in
 * every country. With `decimals` (0 to 20) that many are shown; without, as many as carry meaning (12 digits).
 * The ratio unit `1` is not written. Errors: `value-not-finite` and those of `toUnit`.
 *
 * @example
 * formatQuantity(4.21, 'mass', 'g') // => "4210 g"
 * formatQuantity(333.15, 'temperature', '°F', 1) // => "140.0 °F"
 * formatQuantity(0.561, 'ratio', '%', 0) // => "56 %"
 */
export function formatQuantity(si: number, kind: QuantityKind, unit: string, decimals?: number): string {
  const known = resolveUnit(unit, kind);
  const value = fromSi(si, known);
  if (!Number.isFinite(value))
    throw problem('value-not-finite', { what: 'A quantity to be shown', got: String(si) });
  const digits = decimals === undefined ? shortest(value, known) : value.toFixed(decimals);
  const text = Number(digits) === 0 ? digits.replace('-', '') : digits;
  return known.symbol === '1' ? text : `${text} ${known.symbol}`;
}

/** Twelve significant digits; where the zero is shifted they are those of the kelvin value it was taken from. */
function shortest(value: number, unit: Unit): string {
  const magnitude = Math.max(Math.abs(value), 273.15);
  if (unit.atIcePoint === undefined || magnitude >= 1e12) return String(Number(value.toPrecision(12)));
  return String(Number(value.toFixed(11 - Math.floor(Math.log10(magnitude)))));
}
