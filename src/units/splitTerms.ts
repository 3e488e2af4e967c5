import { type Place, problem } from '../errors/index.js';
import { isUnitSpelling } from './findUnit.js';

/** A number and the unit behind it, both as typed; no unit is null. */
export interface Part {
  readonly number: string;
  readonly unit: string | null;
}

/** One term of a sum: its sign and its parts, of which a compound such as `4 lb 3 oz` has several. */
export interface Term {
  readonly sign: 1 | -1;
  readonly parts: readonly Part[];
}

/** A number: digits in groups of three behind a blank or an apostrophe, or digits with points and commas. */
const NUMBER = /^(?:\d{1,3}(?:(?: \d{3})+|(?:'\d{3})+)(?!\d)(?:[.,]\d+)?|[.,]?\d[\d.,]*)(?:[eE][+-]?\d+)?/;
const LONGEST_UNIT = 32;

/** Splits cleaned text into signed terms. Errors: `number-missing`, `quantity-unreadable`. */
export function splitTerms(text: string, place: Place): Term[] {
  if (!/\d/.test(text)) throw problem('number-missing', { got: text }, place);
  if (/^[+-]? ?0[xXbBoO]/.test(text)) throw problem('number-unreadable', { got: text }, place);
  const terms: Term[] = [];
  let rest = text;
  while (rest !== '') {
    const sign = /^[+-]/.exec(rest)?.[0];
    if (sign) rest = rest.slice(1).trimStart();
    const term = takeParts(rest, text, place);
    terms.push({ sign: sign === '-' ? -1 : 1, parts: term.parts });
    rest = term.rest;
  }
  return terms;
}

function takeParts(from: string, text: string, place: Place): { parts: Part[]; rest: string } {
  const parts: Part[] = [];
  let rest = from;
  for (let found = NUMBER.exec(rest); found; found = NUMBER.exec(rest)) {
    if (parts.at(-1)?.unit === null) throw unreadable(text, 'two numbers stand side by side', place);
    rest = rest.slice(found[0].length).trimStart();
    const unit = takeUnit(rest);
    parts.push({ number: found[0], unit: unit === '' ? null : unit.trim() });
    rest = rest.slice(unit.length).trimStart();
  }
  if (parts.length === 0)
    throw unreadable(text, 'a number is missing before or behind a sign or a word', place);
  return { parts, rest };
}

/** The longest known unit at the start of the text; else everything up to the next number or sign. */
function takeUnit(rest: string): string {
  if (rest === '' || /^(?:[+-]|[.,]?\d)/.test(rest)) return '';
  for (let end = Math.min(rest.length, LONGEST_UNIT); end > 0; end--) {
    const insideWord = /\p{L}/u.test(rest[end - 1]!) && /\p{L}/u.test(rest[end] ?? '');
    if (!insideWord && isUnitSpelling(rest.slice(0, end))) return rest.slice(0, end);
  }
  return /^[^+\-\d]+/.exec(rest)?.[0] ?? '';
}

function unreadable(got: string, why: string, place: Place) {
  return problem('quantity-unreadable', { got, why }, place);
}
