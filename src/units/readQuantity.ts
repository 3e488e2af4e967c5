import { type Place, problem } from '../errors/index.js';
import { formatQuantity } from './formatQuantity.js';
import type { AskedQuantity, TypedQuantity } from './quantityKinds.js';
import { readingsOf } from './readingsOf.js';

/**
 * Reads a quantity where nobody can be asked, as in a file or an option: text that can be meant in two ways is
 * refused. Errors: `number-ambiguous`, and those of `readingsOf`.
 *
 * @example
 * readQuantity('9.3 lb', { kind: 'mass', unit: 'kg' }).si // => 4.21840904
 * readQuantity('2104+2098 g', { kind: 'mass', unit: 'kg' }).value // => 4202
 * readQuantity('0,72 kwh', { kind: 'energy', unit: 'Wh' }).si // => 2592000
 */
export function readQuantity(text: string, asked: AskedQuantity, place: Place = {}): TypedQuantity {
  const [first, second] = readingsOf(text, asked, place);
  if (second) {
    const shown = [first!, second].map((r) => formatQuantity(r.si, r.kind, r.unit)) as [string, string];
    throw problem('number-ambiguous', { got: text.trim(), first: shown[0], second: shown[1] }, place);
  }
  return first!;
}
