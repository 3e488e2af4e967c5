import { type Place, problem } from '../errors/index.js';
import { displayUnit } from './displayUnit.js';
import { findUnit, type Unit } from './findUnit.js';
import { kindPhrases, type QuantityKind, quantityKinds } from './quantityKinds.js';
import { unitKey } from './unitKey.js';
import { unitTable } from './unitTable.js';

/**
 * The unit of this spelling within a kind. Errors: `unit-ambiguous`, `unit-of-other-kind`, `unit-unknown` (with the
 * known units, and the nearest spelling as a hint).
 */
export function resolveUnit(spelling: string, kind: QuantityKind, place: Place = {}): Unit {
  const match = findUnit(spelling, kind);
  if (match.found === 'one') return match.unit;
  if (match.found === 'several') {
    throw problem('unit-ambiguous', { unit: spelling, choices: match.symbols.join(' or ') }, place);
  }
  const other = quantityKinds.find((k) => k !== kind && findUnit(spelling, k).found !== 'none');
  const symbols = unitTable[kind].map((row) => row[0]);
  if (other) {
    const measures = kindPhrases[other].replace(/^an? /, '');
    const detail = {
      unit: spelling,
      measures,
      expected: kindPhrases[kind],
      example: displayUnit(kind, 'si'),
    };
    throw problem('unit-of-other-kind', detail, place);
  }
  const near = nearestSpelling(spelling, kind);
  throw problem(
    'unit-unknown',
    { unit: spelling, expected: kindPhrases[kind], known: symbols.join(', ') },
    place,
    near === undefined ? undefined : `Perhaps "${near}" was meant.`,
  );
}

/** The known spelling that takes the fewest changes, if it is near enough to be a slip of the finger. */
function nearestSpelling(spelling: string, kind: QuantityKind): string | undefined {
  const typed = unitKey(spelling).toLowerCase();
  if (typed.length < 2) return undefined;
  let best: string | undefined;
  let bestChanges = Math.max(1, Math.floor(typed.length / 3)) + 1;
  for (const [symbol, , , spellings] of unitTable[kind]) {
    for (const known of [symbol, ...(spellings?.split('|') ?? [])]) {
      const changes = changesBetween(typed, unitKey(known).toLowerCase());
      // A change of every letter is no likeness: "x" is not a slip for "g".
      if (changes < bestChanges && changes < Math.max(typed.length, known.length)) {
        best = symbol;
        bestChanges = changes;
      }
    }
  }
  return best;
}

/** Number of inserted, dropped, changed or swapped letters between two words (optimal string alignment). */
function changesBetween(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        least = Math.min(least, before[j - 2]! + 1);
      }
      row.push(least);
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}
