import { problem } from '../errors/index.js';
import { roleByWords, saysElapsed } from './headerWords.js';
import type { TimeSource } from './TimeSource.js';
import { likelySerial, possibleSerial } from './serialDays.js';
import { shownText } from './shownText.js';
import type { ReadOptions, TimeForm } from './types.js';

/** What the numbers of a time column have in common: all that is needed to tell their form. */
export interface NumberSpan {
  readonly rows: number;
  readonly first: number;
  readonly least: number;
  readonly most: number;
}

const forms: readonly TimeForm[] = [
  'elapsed-s',
  'elapsed-ms',
  'elapsed-min',
  'elapsed-h',
  'epoch-s',
  'epoch-ms',
  'serial-days',
];
// 2001-09-09 to 2128: seconds and milliseconds since 1970 can't be taken for one another here.
const epochFromS = 1e9;
const epochToS = 5e9;
// Five decimals of a day show 0.9 s; rows are less than an hour apart.
const fewestDecimals = 5;
const widestMeanDays = 1 / 24;

/**
 * Tells seconds, minutes, epoch times and spreadsheet days apart: by what is stated, by the range of the numbers, by
 * the unit. Numbers that may be two of these are an error.
 */
export function numberForm(
  span: NumberSpan,
  source: TimeSource,
  options: ReadOptions,
  place: { readonly file: string; readonly line: number },
): { readonly form: TimeForm; readonly evidence: string } {
  if (options.timeForm) return statedForm(span, options.timeForm, place);
  const symbol = source.unit?.symbol;
  const so = 'only so do the numbers fall into the years 2001 to 2128';
  const inside = (from: number, to: number) => span.rows > 0 && span.least >= from && span.most <= to;
  const epochS = inside(epochFromS, epochToS);
  const epochMs = inside(1e3 * epochFromS, 1e3 * epochToS);
  if (symbol === 's' && epochMs)
    throw twoForms(source, 'seconds, by its unit', 'milliseconds since 1970, by its size', 'epoch-ms', place);
  if (!symbol && (epochS || epochMs) && saysElapsed(source.header))
    throw twoForms(
      source,
      `${epochS ? 'seconds' : 'milliseconds'} since 1970, by its size`,
      'elapsed milliseconds, by its words',
      epochS ? 'epoch-s' : 'epoch-ms',
      place,
    );
  if ((symbol === 's' || !symbol) && epochS) return { form: 'epoch-s', evidence: so };
  if ((symbol === 'ms' || !symbol) && epochMs) return { form: 'epoch-ms', evidence: so };
  if (symbol) return { form: `elapsed-${symbol}` as TimeForm, evidence: `its unit is ${symbol}` };
  const serial = inside(likelySerial.from, likelySerial.to);
  if (serial && clearlySerial(span, source))
    return {
      form: 'serial-days',
      evidence: 'the numbers are days since 1899-12-30, as spreadsheets count them in their 1900 date system',
    };
  throw noUnit(source, serial, place);
}

function statedForm(
  span: NumberSpan,
  form: TimeForm,
  place: { readonly file: string; readonly line: number },
): { readonly form: TimeForm; readonly evidence: string } {
  const { from, to } = possibleSerial;
  const possible = form !== 'serial-days' || (span.least >= from && span.most < to);
  if (forms.includes(form) && possible) return { form, evidence: 'stated by --time-form' };
  const bad = form === 'serial-days' && span.first >= from && span.first < to ? span.most : span.first;
  const expected =
    form === 'serial-days'
      ? `a number of days since 1899-12-30, from ${from} to ${to},`
      : `a time of the form ${form}`;
  throw problem('log-time-bad', { got: String(bad), expected }, place);
}

function clearlySerial({ rows, least, most }: NumberSpan, source: TimeSource): boolean {
  const word = roleByWords(source.header);
  const says = (word === 'time' || word === 'date') && !saysElapsed(source.header);
  const meanDays = (most - least) / (rows - 1);
  return says && source.decimals >= fewestDecimals && rows > 1 && meanDays < widestMeanDays;
}

function twoForms(
  source: TimeSource,
  first: string,
  second: string,
  epoch: TimeForm,
  place: { readonly file: string; readonly line: number },
) {
  const elapsed = source.unit?.symbol === 's' ? 'elapsed-s' : 'elapsed-ms';
  const choices = [first, second].map((words) => ({
    words,
    options: { 'time-form': words.includes('since 1970') ? epoch : elapsed },
  }));
  return problem(
    'log-two-readings',
    { what: `The time column "${shownText(source.header)}"`, first, second, choices },
    place,
    `Say which with --time-form ${elapsed} or --time-form ${epoch}.`,
  );
}

function noUnit(
  source: TimeSource,
  serial: boolean,
  place: { readonly file: string; readonly line: number },
) {
  const name = source.header ? `"${shownText(source.header)}" ` : '';
  const readings = [
    ['seconds', 'elapsed-s'],
    ['minutes', 'elapsed-min'],
    ['milliseconds', 'elapsed-ms'],
    ...(serial ? [['the days of a spreadsheet', 'serial-days'] as const] : []),
  ] as const;
  return problem(
    'log-two-readings',
    {
      what: `The time column ${name}without a unit`,
      first: 'seconds',
      second: serial ? 'minutes, milliseconds or the days of a spreadsheet' : 'minutes or milliseconds',
      choices: readings.map(([words, form]) => ({ words, options: { 'time-form': form } })),
    },
    place,
    `Say which with --time-form elapsed-s, elapsed-min${serial ? ', elapsed-ms or serial-days' : ' or elapsed-ms'}.`,
  );
}
