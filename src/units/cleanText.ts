import { type Place, problem } from '../errors/index.js';

const LONGEST = 100;

/**
 * Typed text with plain blanks, minus signs and apostrophes. Errors: `quantity-empty`, `quantity-unreadable` (too
 * long), `number-foreign-digits`.
 */
export function cleanText(typed: string, place: Place): string {
  const text = typed
    .replace(/\s+/g, ' ') // \s covers the no-break, thin and figure spaces
    .replace(/\u2212/g, '-')
    .replace(/[\u2018\u2019]/g, "'")
    .trim();
  if (text === '') throw problem('quantity-empty', {}, place);
  if (text.length > LONGEST) {
    const detail = { got: `${text.slice(0, 40)}…`, why: `it is longer than ${LONGEST} characters` };
    throw problem('quantity-unreadable', detail, place);
  }
  const foreign = /\p{Nd}/u.exec(text.replace(/[0-9]/g, ''));
  if (foreign) throw problem('number-foreign-digits', { got: text, digit: foreign[0] }, place);
  return text;
}
