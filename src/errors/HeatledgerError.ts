import type { Choice } from './Choice.js';
import { type ErrorCode, type ErrorDetail, texts } from './texts.js';

/** Where something is wrong, as exactly as it is known. */
export interface Place {
  /** Path as the user would write it. */
  readonly file?: string;
  /** Line, counted from 1. */
  readonly line?: number;
  /** Column, counted from 1. */
  readonly column?: number;
  /** Key or path of keys inside the file, such as `limits.absolute`, or the name of an option. */
  readonly key?: string;
}

/**
 * The one error class of the program. `message` is a whole sentence with what was got and what was
 * expected; `place` says where; `hint` says what to do about it; `choices` are the ways out where there are several.
 */
export class HeatledgerError extends Error {
  override readonly name = 'HeatledgerError';
  constructor(
    readonly code: ErrorCode,
    message: string,
    readonly place: Place = {},
    readonly hint?: string,
    readonly choices?: readonly Choice[],
  ) {
    super(message);
  }

  /** Place, sentence and hint as one text of one or two lines, the form in which the terminal shows it. */
  toText(): string {
    const where = placeText(this.place);
    const first = where ? `${where}: ${this.message}` : this.message;
    return this.hint ? `${first}\n${this.hint}` : first;
  }

  /** The same for a program: errors are data too under `--json`. */
  toJSON(): { code: string; message: string; place: Place; hint?: string; choices?: readonly Choice[] } {
    return {
      code: this.code,
      message: this.message,
      place: this.place,
      ...(this.hint ? { hint: this.hint } : {}),
      ...(this.choices ? { choices: this.choices } : {}),
    };
  }
}

/**
 * "export.csv, line 12, column 3, key limits" or the parts of it that are known.
 *
 * @example
 * placeText({ file: 'export.csv', line: 12, column: 3 }) // => 'export.csv, line 12, column 3'
 */
export function placeText(place: Place): string {
  const parts: string[] = [];
  if (place.file !== undefined) parts.push(place.file);
  if (place.line !== undefined) parts.push(`line ${place.line}`);
  if (place.column !== undefined) parts.push(`column ${place.column}`);
  if (place.key !== undefined) parts.push(place.key);
  return parts.join(', ');
}

/**
 * Makes an error from its code; the caller throws it.
 *
 * @example
 * throw problem('coverage-bad', { got: '1.2' }, { key: '--coverage' }); // throws 'coverage-bad'
 * problem('coverage-bad', { got: '1.2' }).message // => 'The coverage must lie between 0 and 1, but it is 1.2.'
 */
export function problem<C extends ErrorCode>(
  code: C,
  detail: ErrorDetail<C>,
  place: Place = {},
  hint?: string,
): HeatledgerError {
  const text = texts[code] as (d: ErrorDetail<C>) => string;
  const { choices } = detail as { readonly choices?: readonly Choice[] };
  return new HeatledgerError(code, text(detail), place, hint, choices);
}
