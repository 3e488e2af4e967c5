import { HeatledgerError, problem } from '../errors/index.js';
import { cellKind, isValueKind } from './cellKind.js';
import { csvRecords } from './csvRecords.js';
import { type DecimalSign, decimalSign } from './decimalSign.js';
import { findTable, type Table } from './findTable.js';
import { joinPairs } from './joinPairs.js';
import { shownNames } from './shownNames.js';
import { shownText } from './shownText.js';
import type { CsvRecord, ReadOptions } from './types.js';

/** How the text is cut into cells, and the table found in it. */
export interface Layout {
  readonly delimiter: string;
  readonly decimal: '.' | ',';
  readonly decimalEvidence: string;
  /** Commas part the columns and the decimals as well: every two cells are one number. */
  readonly pairs: boolean;
  readonly table: Table;
  /** One text for each column, empty where the header has none. */
  readonly header: readonly string[];
}

interface Candidate {
  readonly delimiter: string;
  readonly records: readonly CsvRecord[];
  readonly table: Table | null;
  readonly header: readonly string[] | null;
  readonly failure: HeatledgerError | null;
}

const delimiters = [';', '\t', '|', ','];
const headLength = 1 << 18;
const headRecords = 400;

/** Finds delimiter, header and decimal sign from the first part of the text. Two plausible ways are an error. */
export function sniffLayout(text: string, options: ReadOptions, file: string): Layout {
  const wanted = options.delimiter === undefined ? delimiters : [delimiterOf(options.delimiter)];
  // Where rows are counted, a table may have one column.
  const least = options.intervalS === undefined ? 2 : 1;
  const candidates = wanted.map((delimiter) => candidateOf(text, delimiter, least, file));
  const plausible = withoutNarrow(candidates.filter(isPlausible));
  if (plausible.length > 1) throw twoDelimiters(plausible, file);
  const only = plausible[0];
  if (only) return withDecimal(only, only.table!, only.header!, false, options, file);
  return lastResort(candidates, options, file);
}

function delimiterOf(name: string): string {
  const named: Record<string, string> = { tab: '\t', '\\t': '\t', comma: ',', semicolon: ';', pipe: '|' };
  const delimiter = named[name] ?? name;
  if (delimiter.length === 1 && !/[\s"\w.]/.test(delimiter.replace('\t', ''))) return delimiter;
  throw problem(
    'log-option-bad',
    { got: name, expected: 'one sign: comma, semicolon, tab or pipe' },
    { key: '--delimiter' },
  );
}

function candidateOf(text: string, delimiter: string, least: number, file: string): Candidate {
  const cut = text.length > headLength ? text.lastIndexOf('\n', headLength) : -1;
  const head = cut > 0 ? text.slice(0, cut) : text;
  const records: CsvRecord[] = [];
  let failure: HeatledgerError | null = null;
  try {
    // Without a quote the grammar is no more than this, and much quicker so: each delimiter is tried.
    if (!head.includes('"')) records.push(...plainRecords(head, delimiter));
    else csvRecords(head, { delimiter, file, limit: headRecords }, (record) => records.push(record));
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    failure = head === text ? error : null;
  }
  const table = findTable(records, least);
  return { delimiter, records, table, header: table && fittingHeader(table), failure };
}

function plainRecords(text: string, delimiter: string): CsvRecord[] {
  const lines = text.split('\n', headRecords);
  return lines.map((line, at) => ({ cells: line.split(delimiter), line: at + 1 }));
}

// A delimiter at the end of each row, or of the header only, makes one empty cell more.
function fittingHeader(table: Table): readonly string[] | null {
  if (table.header === null) return Array.from({ length: table.width }, () => '');
  const header = table.header.slice(
    0,
    Math.max(table.width, table.header.findLastIndex((cell) => cell !== '') + 1),
  );
  if (header.length === table.width - 1 && table.kinds.at(-1) === 'missing') return [...header, ''];
  return header.length === table.width ? header : null;
}

function isPlausible(candidate: Candidate): boolean {
  const { table, header, delimiter } = candidate;
  if (!table || !header || table.fit < 0.5) return false;
  const others = delimiters.filter((other) => other !== ',' && other !== delimiter);
  const holdsOthers = table.sample.filter(({ cells }) =>
    cells.some((cell) => others.some((other) => cell.includes(other))),
  );
  return 2 * holdsOthers.length < table.sample.length;
}

// One column is a reading only where no delimiter cuts header and rows alike into more; which sign doesn't cut them
// is all the same then.
function withoutNarrow(plausible: readonly Candidate[]): readonly Candidate[] {
  const wide = plausible.filter(({ table }) => table!.width > 1);
  if (wide.some(({ table }) => table!.header !== null)) return wide;
  return [...plausible.filter(({ table }) => table!.width === 1).slice(0, 1), ...wide];
}

function withDecimal(
  candidate: Candidate,
  table: Table,
  header: readonly string[],
  pairs: boolean,
  options: ReadOptions,
  file: string,
): Layout {
  const base = { delimiter: candidate.delimiter, pairs, table, header };
  if (options.decimal) return { ...base, decimal: options.decimal, decimalEvidence: 'stated by --decimal' };
  const sign = decimalSign(table, candidate.delimiter);
  if (sign.decimal === null) throw twoDecimals(sign, file);
  return { ...base, decimal: sign.decimal, decimalEvidence: sign.evidence };
}

// No delimiter gives a table whose header fits: say which of the usual troubles it is.
function lastResort(candidates: readonly Candidate[], options: ReadOptions, file: string): Layout {
  const values = (candidate: Candidate) =>
    candidate.table!.kinds.filter(isValueKind).length * candidate.table!.fit;
  const best = candidates.filter((one) => one.table).sort((a, b) => values(b) - values(a))[0];
  const failure = candidates.find((one) => one.failure)?.failure;
  if (!best) throw failure ?? noTable(candidates, file);
  const table = best.table!;
  const names = table.header ?? [];
  const padded = Array.from({ length: table.width }, (_, index) => names[index] ?? '');
  if (best.delimiter === ',' && table.width === 2 * names.length && allWhole(table)) {
    if (!options.decimal) throw pairsOrColumns(table, file);
    if (options.decimal === ',') {
      const joined = findTable(best.records.map((record) => joinPairs(record, table.width)));
      if (joined) return withDecimal(best, joined, names, true, options, file);
    }
    return withDecimal(best, table, padded, false, options, file);
  }
  if (options.columns || !table.header || names.length === table.width)
    return withDecimal(best, table, padded, false, options, file);
  throw problem(
    'log-header-width',
    { header: names.length, cells: table.width, line: table.firstDataLine },
    { file, line: table.headerLine ?? 1 },
    best.delimiter === ','
      ? 'If the commas are decimal signs too, export again with semicolons; else name each column by its number with --column, such as --column time=1.'
      : 'Name each column by its number with --column, such as --column time=1.',
  );
}

function allWhole(table: Table): boolean {
  return table.sample.every(({ cells }) => cells.every((cell) => /^\s*-?\d*\s*$/.test(cell)));
}

function noTable(candidates: readonly Candidate[], file: string): HeatledgerError {
  const unread = candidates.map(({ records }) => unreadTime(records)).find((one) => one !== null);
  if (unread)
    return problem(
      'log-time-bad',
      { got: unread.cell, expected: 'a time of day with its date (and year), or a time from the start,' },
      { file, line: unread.line },
    );
  const header = candidates.flatMap((one) => one.records).find(({ cells }) => cells.length > 1);
  if (header)
    return problem('log-no-rows', { header: shownCells(header.cells) }, { file, line: header.line });
  const single = candidates.map((one) => findTable(one.records, 1)).find((table) => table?.header);
  if (!single) return problem('log-no-table', {}, { file });
  return problem(
    'log-no-time',
    { got: shownNames([{ header: single.header![0]!, index: 0 }]) },
    { file, line: single.headerLine! },
    'Where the export has none, state the time from row to row, such as --interval 10s.',
  );
}

function twoDelimiters(plausible: readonly Candidate[], file: string): HeatledgerError {
  const [a, b] = plausible as [Candidate, Candidate];
  const shown = ({ delimiter, table }: Candidate) => {
    const count = table!.width === 1 ? 'one cell' : `the ${table!.width} cells`;
    return `parted by ${JSON.stringify(delimiter)} line ${table!.firstDataLine} has ${count} ${shownCells(table!.sample[0]!.cells)}`;
  };
  return problem(
    'log-two-readings',
    {
      what: 'The delimiter',
      first: shown(a),
      second: shown(b),
      choices: plausible.map((one) => ({
        words: shown(one),
        options: { delimiter: one.delimiter === '\t' ? 'tab' : one.delimiter },
      })),
    },
    { file, line: a.table!.firstDataLine },
    'Say which with --delimiter.',
  );
}

/** The first reading with a decimal point, the second with a comma. */
function decimalChoices(first: string, second: string) {
  return [
    { words: first, options: { decimal: '.' } },
    { words: second, options: { decimal: ',' } },
  ];
}

function twoDecimals(sign: Extract<DecimalSign, { decimal: null }>, file: string): HeatledgerError {
  const [first, second] = [`${sign.point} (decimal point)`, `${sign.comma} (decimal comma)`] as const;
  return problem(
    'log-two-readings',
    { what: `The number "${sign.cell}"`, first, second, choices: decimalChoices(first, second) },
    { file, line: sign.line },
    'Say which with --decimal . or --decimal ,',
  );
}

function pairsOrColumns(table: Table, file: string): HeatledgerError {
  const cells = table.sample[0]!.cells;
  const joined = joinPairs({ cells, line: 0 }, table.width).cells;
  const first = `the sign between columns only: ${shownCells(cells)}`;
  const second = `the decimal sign as well: ${shownCells(joined)}`;
  return problem(
    'log-two-readings',
    { what: 'The comma', first, second, choices: decimalChoices(first, second) },
    { file, line: table.firstDataLine },
    'Say which with --decimal . or --decimal ,',
  );
}

// Under a header, a cell with digits that is neither number nor time, beside one value: a time we can't read.
function unreadTime(records: readonly CsvRecord[]): { readonly cell: string; readonly line: number } | null {
  const header = records.findIndex(
    ({ cells }) => cells.length > 1 && cells.every((cell) => cellKind(cell) === 'text'),
  );
  const row = records[header + 1];
  if (header < 0 || !row || row.cells.length !== records[header]!.cells.length) return null;
  const cell = row.cells.find((one) => /\d/.test(one) && cellKind(one) === 'text');
  const values = row.cells.filter((one) => isValueKind(cellKind(one)));
  return cell !== undefined && values.length > 0 ? { cell: shownText(cell), line: row.line } : null;
}

function shownCells(cells: readonly string[]): string {
  const shown = cells.slice(0, 10).map(shownText).join(' | ');
  return cells.length > 10 ? `${shown} and ${cells.length - 10} more` : shown;
}
