import { type Place, problem } from '../errors/index.js';
import type { Unit } from './findUnit.js';
import { type NumberReadings, numberReadings } from './numberReadings.js';
import type { QuantityKind } from './quantityKinds.js';
import { resolveUnit } from './resolveUnit.js';
import type { Part, Term } from './splitTerms.js';

/** A part of a term whose unit is known. */
export interface PricedPart {
  readonly number: NumberReadings;
  readonly unit: Unit;
}

/** A term of a sum whose units are known. */
export interface PricedTerm {
  readonly sign: 1 | -1;
  readonly parts: readonly PricedPart[];
}

/**
 * Gives every term its unit: its own, else that of the next term that has one, else the stated one. Errors:
 * `unit-missing`, `unit-order`, `temperature-sum`, and those of the number and of the unit.
 */
export function pricedTerms(
  terms: readonly Term[],
  kind: QuantityKind,
  stated: Unit,
  got: string,
  place: Place,
): PricedTerm[] {
  if (kind === 'temperature' && (terms.length > 1 || terms[0]!.parts.length > 1)) {
    throw problem('temperature-sum', { got }, place);
  }
  const units = terms.map((term) => unitsOfTerm(term.parts, kind, got, place));
  const lastTyped = units.findLast((list) => list !== null)?.at(-1);
  let next: Unit | undefined;
  const priced: PricedTerm[] = [];
  for (let i = terms.length - 1; i >= 0; i--) {
    const own = units[i];
    // "2104 g + 2098" says grams to a person; where another unit is stated nobody can be sure.
    const doubtful = !own && !next && lastTyped && lastTyped.symbol !== stated.symbol;
    if (doubtful) throw problem('unit-missing', { got, number: terms[i]!.parts[0]!.number }, place);
    const list = own ?? [next ?? stated];
    if (own) next = own[0];
    const parts = terms[i]!.parts.map((part, j) => ({
      number: numberReadings(part.number, place),
      unit: list[j]!,
    }));
    priced.unshift({ sign: terms[i]!.sign, parts });
  }
  return priced;
}

/** The units of one term, from the larger to the smaller one; null where it is a bare number. */
function unitsOfTerm(parts: readonly Part[], kind: QuantityKind, got: string, place: Place): Unit[] | null {
  if (parts.length === 1 && parts[0]!.unit === null) return null;
  const units = parts.map((part) => {
    if (part.unit === null) throw problem('unit-missing', { got, number: part.number }, place);
    return resolveUnit(part.unit, kind, place);
  });
  for (let i = 1; i < units.length; i++) {
    const [larger, smaller] = [units[i - 1]!, units[i]!];
    if (smaller.numerator / smaller.denominator >= larger.numerator / larger.denominator) {
      throw problem('unit-order', { got, larger: larger.symbol, smaller: smaller.symbol }, place);
    }
  }
  return units;
}
