import { type Place, problem } from '../errors/index.js';

/** The two ways of writing numbers: which mark stands before the decimals. */
export type DecimalMark = 'point' | 'comma';

/** The value of a number under each way of writing; absent where the number cannot be meant so. */
export type NumberReadings = { readonly [M in DecimalMark]?: number };

const POINT = /^(?:\d+\.?\d*|\.\d+)$/;
const COMMA = /^\d*,\d+$/;
const GROUPED_BY_COMMA = /^[1-9]\d{0,2}(?:,\d{3})+(?:\.\d*)?$/;
const GROUPED_BY_POINT = /^[1-9]\d{0,2}(?:\.\d{3})+,\d+$/;

/**
 * What an unsigned number may mean. Blanks and apostrophes between groups of three have no other meaning; a comma
 * before exactly three digits has two; a point alone is always a decimal point.
 * Errors: `number-unreadable`, `number-out-of-range`.
 */
export function numberReadings(text: string, place: Place): NumberReadings {
  const [, mantissa = '', exponent = ''] = /^(.*?)([eE][+-]?\d+)?$/.exec(text) ?? [];
  const digits = mantissa.replace(/[ ']/g, '');
  const value = (plain: string) => finite(Number(plain + exponent), text, place);
  if (/^\d+$/.test(digits)) return { point: value(digits), comma: value(digits) };
  if (POINT.test(digits)) return { point: value(digits) };
  const readings: { point?: number; comma?: number } = {};
  // In "1 484,500" the blank already groups, so that the comma can only be the decimal one.
  if (digits === mantissa && GROUPED_BY_COMMA.test(digits)) readings.point = value(digits.replace(/,/g, ''));
  if (COMMA.test(digits)) readings.comma = value(digits.replace(',', '.'));
  if (digits === mantissa && GROUPED_BY_POINT.test(digits)) {
    readings.comma = value(digits.replace(/\./g, '').replace(',', '.'));
  }
  if (readings.point === undefined && readings.comma === undefined) {
    throw problem('number-unreadable', { got: text }, place);
  }
  return readings;
}

function finite(value: number, text: string, place: Place): number {
  const lost = value === 0 && /[1-9]/.test(text.replace(/e.*/i, ''));
  if (!Number.isFinite(value) || lost) throw problem('number-out-of-range', { got: text }, place);
  return value;
}
