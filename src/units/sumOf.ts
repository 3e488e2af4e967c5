import { type Place, problem } from '../errors/index.js';
import { fromSi, toSi } from './conversion.js';
import type { DecimalMark } from './numberReadings.js';
import type { PricedTerm } from './pricedTerms.js';
import type { QuantityKind } from './quantityKinds.js';

/** A sum in SI and in the unit of its first part. */
export interface Sum {
  readonly si: number;
  readonly value: number;
  readonly unit: string;
}

/**
 * Adds terms up under one way of writing numbers; null where some number cannot be meant so. Errors:
 * `number-out-of-range`, `below-absolute-zero`.
 */
export function sumOf(
  terms: readonly PricedTerm[],
  mark: DecimalMark,
  kind: QuantityKind,
  got: string,
  place: Place,
): Sum | null {
  const unit = terms[0]!.parts[0]!.unit;
  const oneUnit = terms.every((term) => term.parts.every((part) => part.unit === unit));
  const values: number[] = [];
  for (const term of terms) {
    for (const part of term.parts) {
      const number = part.number[mark];
      if (number === undefined) return null;
      values.push(term.sign * (oneUnit ? number : toSi(number, part.unit)));
    }
  }
  const sum = tidySum(values);
  const si = oneUnit ? toSi(sum, unit) : sum;
  const value = oneUnit ? sum : fromSi(sum, unit);
  const vanished = value !== 0 && si === 0 && kind !== 'temperature';
  if (!Number.isFinite(si) || vanished) throw problem('number-out-of-range', { got }, place);
  if (kind === 'temperature' && si < 0) throw problem('below-absolute-zero', { got }, place);
  return { si, value, unit: unit.symbol };
}

/** A sum without the binary residue of decimal terms: kept to the 15th digit of its largest term. */
function tidySum(values: readonly number[]): number {
  const sum = values.reduce((total, value) => total + value, 0);
  const largest = Math.max(...values.map(Math.abs));
  if (values.length === 1 || largest === 0 || !Number.isFinite(sum)) return sum === 0 ? 0 : sum;
  const decimals = 14 - Math.floor(Math.log10(largest));
  return decimals < 0 || decimals > 100 ? sum : Number(sum.toFixed(decimals)) + 0;
}
