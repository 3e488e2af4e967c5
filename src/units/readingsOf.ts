import { HeatledgerError, type Place, problem } from '../errors/index.js';
import { cleanText } from './cleanText.js';
import { clockReadings } from './clockReadings.js';
import { fromSi } from './conversion.js';
import type { DecimalMark } from './numberReadings.js';
import { pricedTerms } from './pricedTerms.js';
import type { AskedQuantity, TypedQuantity } from './quantityKinds.js';
import { resolveUnit } from './resolveUnit.js';
import { splitTerms } from './splitTerms.js';
import { sumOf } from './sumOf.js';

/**
 * Everything that a typed quantity may plausibly mean: one reading, or two where only the person can tell, as with
 * `1,484` (1484 or 1.484) or `12:31`. A bare number takes the asked unit; sums, differences and compounds of units
 * are added up; blanks, apostrophes, points and commas are read as they are written in different countries.
 * Errors: `quantity-empty`, `quantity-unreadable`, `number-missing`, `number-unreadable`, `number-foreign-digits`,
 * `number-out-of-range`, `number-marks-mixed`, `clock-unreadable`, `unit-missing`, `unit-unknown`, `unit-ambiguous`,
 * `unit-of-other-kind`, `unit-order`, `temperature-sum`, `below-absolute-zero`.
 *
 * @example
 * readingsOf('1,484', { kind: 'mass', unit: 'g' }).map((r) => r.value) // => [1484, 1.484]
 * readingsOf('4 lb 3 oz', { kind: 'mass', unit: 'kg' }).map((r) => r.si) // => [1.8994180]
 */
export function readingsOf(text: string, asked: AskedQuantity, place: Place = {}): TypedQuantity[] {
  const stated = resolveUnit(asked.unit, asked.kind, place);
  const clean = cleanText(text, place);
  const typed = text.trim();
  if (asked.kind === 'time' && clean.includes(':')) {
    return clockReadings(clean, stated.symbol, place).map((si) => {
      return { kind: 'time', si, value: fromSi(si, stated), unit: stated.symbol, typed };
    });
  }
  const terms = pricedTerms(splitTerms(clean, place), asked.kind, stated, clean, place);
  const readings: TypedQuantity[] = [];
  let refused: unknown;
  for (const mark of ['point', 'comma'] satisfies DecimalMark[]) {
    try {
      const sum = sumOf(terms, mark, asked.kind, clean, place);
      if (sum && sum.si !== readings[0]?.si) readings.push({ kind: asked.kind, ...sum, typed });
    } catch (error) {
      if (!(error instanceof HeatledgerError)) throw error;
      refused ??= error; // a reading below absolute zero is not plausible; the other one may be
    }
  }
  if (readings.length === 0) throw refused ?? problem('number-marks-mixed', { got: clean }, place);
  return readings;
}
