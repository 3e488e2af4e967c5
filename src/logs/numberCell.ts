import { type ExportUnit, exportUnit } from './exportUnits.js';

/** A number as a cell shows it, with the decimals shown and the unit where the cell has one. */
export interface NumberCell {
  readonly value: number;
  readonly decimals: number;
  readonly unit: ExportUnit | null;
}

const missing =
  /^(?:|-+|–|—|\.+|\?+|\*+|nan|n\/?[ad]\.?|n\. ?[ad]\.|#n\/?[ad]|null|none|nil|[+-]?ol|o\.l\.?|ovl|ovf|ovrflw|overload|overflow|over|over[ -]?range|>+|[+-]?inf|[+-]?infinity|[+-]?∞|[üu]e?berlast|[üu]e?berlauf|[üu]e?berlaufen|err|error|fehler|---\.-+|open|offen|surcharge|d[ée]bordement|hors (?:gamme|limites|plage)|sobrecarga|desbordamiento|fuera de rango|fora d[ae] (?:escala|faixa|gama)|sovraccarico|fuori (?:scala|campo)|overbelast(?:ing)?|buiten bereik|przeci[ąa][żz]enie|poza zakresem|p[řr]et[íi][žz]en[íi]|mimo rozsah|[öo]verlast|[öo]verbelastning|utanf[öo]r omr[åa]de|overbelastning|uden for omr[åa]de|utenfor omr[åa]de)$/i;

/** Whether a cell says that there is no value: empty, `-`, `NaN`, `OL` and their like. */
export function isMissing(cell: string): boolean {
  const text = cell.trim();
  // None of the words begins with a digit, and nearly every cell does.
  const first = text.charCodeAt(0);
  return !(first >= 48 && first <= 57) && text.length <= longestWord && missing.test(text);
}

const longestWord = 200;
const plain = /^-?\d+(?:\.(\d+))?$/;
// Groups of three may be parted by a blank, an apostrophe, or the sign that isn't the decimal one. No number in groups
// begins with a zero, so 0.123 is one with a decimal point and nothing else.
const shapes = {
  '.': /^([+-]?)([1-9]\d{0,2}(?:([, '’])\d{3})(?:\3\d{3})*|\d*)(?:\.(\d*))?(?:[eE]([+-]?\d{1,3}))?$/,
  ',': /^([+-]?)([1-9]\d{0,2}(?:([. '’])\d{3})(?:\3\d{3})*|\d*)(?:,(\d*))?(?:[eE]([+-]?\d{1,3}))?$/,
};

/**
 * Reads a cell as a number with the given decimal sign: a number, `null` where the cell says "no value", or
 * `undefined` where it is no number. Never guesses: `0x10` and `1,5` under a decimal point are no numbers.
 */
export function numberCell(cell: string, decimal: '.' | ','): NumberCell | null | undefined {
  const quick = decimal === '.' ? plain.exec(cell) : null;
  if (quick) return { value: Number(cell), decimals: quick[1]?.length ?? 0, unit: null };
  const text = cell
    .trim()
    .replace(/[\u00a0\u2007\u2009\u202f]/g, ' ')
    .replace(/^\u2212/, '-');
  if (isMissing(text)) return null;
  const bare = bareNumber(text, decimal);
  if (bare) return bare;
  const split = /^([+-]?[\d.,'’ ]*\d(?:[eE][+-]?\d+)?)\s*([^\d\s.,'’+-][^\d]*)$/.exec(text);
  const unit = split && exportUnit(split[2]!);
  const number = split && unit && bareNumber(split[1]!, decimal);
  return number ? { ...number, unit: unit! } : undefined;
}

function bareNumber(text: string, decimal: '.' | ','): NumberCell | undefined {
  const match = shapes[decimal].exec(text);
  if (!match) return undefined;
  const [, sign = '', whole = '', , part = '', exponent = '0'] = match;
  if (whole === '' && part === '') return undefined;
  const value = Number(`${sign}${whole.replace(/\D/g, '')}.${part}e${exponent}`);
  return Number.isFinite(value) ? { value, decimals: part.length - Number(exponent), unit: null } : undefined;
}
