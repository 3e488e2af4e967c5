import { shownNames } from './shownNames.js';
import { shownText } from './shownText.js';
import type { ColumnReading, ExportMapping, Log, TimeForm } from './types.js';

const roleWords: Record<string, string> = {
  time: 'Time',
  date: 'Date',
  power: 'Power',
  energy: 'Energy counter',
  voltage: 'Voltage',
  current: 'Current',
  temperature: 'Temperature',
  powerFactor: 'Power factor',
};
const formWords: Record<TimeForm, string> = {
  'elapsed-s': 'elapsed seconds',
  'elapsed-ms': 'elapsed milliseconds',
  'elapsed-min': 'elapsed minutes',
  'elapsed-h': 'elapsed hours',
  'elapsed-hms': 'hours, minutes and seconds',
  'elapsed-mmss': 'minutes and seconds',
  iso: 'dates of ISO 8601',
  'day-first': 'dates with the day first',
  'month-first': 'dates with the month first',
  'year-first': 'dates with the year first',
  'epoch-s': 'seconds since 1970',
  'epoch-ms': 'milliseconds since 1970',
  'serial-days': 'the days of a spreadsheet',
  'row-count': 'a count of rows',
};
const delimiterWords: Record<string, string> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  '|': 'pipes',
};
const encodingWords: Record<string, string> = {
  'utf-8': 'UTF-8',
  'utf-16le': 'UTF-16',
  'utf-16be': 'UTF-16',
  latin1: 'Latin-1',
};

/** What `describeLog` needs to know of a log. */
export type DescribedLog = Pick<Log, 'mapping' | 'rows' | 'startUtcMs'> &
  ({ readonly timesS: Float64Array } | { readonly durationS: number });

/**
 * Says in plain words how an export was read, with the evidence: text form, table, times, every column, and what was
 * not read.
 *
 * @example
 * const log = readExport(new TextEncoder().encode('t [s],P [W]\n0,900\n10,900.5\n'));
 * describeLog(log)[2] // => "Time: header says \"t [s]\"; read as elapsed seconds (its unit is s)."
 * describeLog(log)[3] // => "Power in W: header says \"P [W]\"."
 */
export function describeLog(log: DescribedLog): string[] {
  const { mapping, rows } = log;
  const used = mapping.columns.filter(({ role }) => role !== 'ignored');
  const rest = mapping.columns.filter(({ role }) => role === 'ignored');
  const names = nameWords(mapping.columns);
  return [
    textWords(mapping),
    tableWords(log),
    timeWords(mapping, used, rows),
    ...used.filter(({ role }) => role !== 'time').map(columnWords),
    ...(names ? [names] : []),
    ...(rest.length > 0 ? [`Not read: ${shownNames(rest)}.`] : []),
  ];
}

function textWords({ encoding, delimiter, decimal, decimalEvidence, columns }: ExportMapping): string {
  const parted = delimiterWords[delimiter] ?? `"${delimiter}"`;
  const cut = columns.length > 1 ? `columns parted by ${parted}` : 'one column';
  const sign = decimal === ',' ? 'decimal comma' : 'decimal point';
  return `${encodingWords[encoding]} text, ${cut}, ${sign} (${decimalEvidence}).`;
}

function tableWords(log: DescribedLog): string {
  const { mapping, rows, startUtcMs } = log;
  const head = mapping.headerLine === null ? 'No header line' : `Header on line ${mapping.headerLine}`;
  const durationS = 'durationS' in log ? log.durationS : (log.timesS[rows - 1] ?? 0);
  const start =
    startUtcMs === null ? '' : `, from ${new Date(startUtcMs).toISOString()} (zone ${mapping.zone})`;
  const count = rows === 1 ? '1 row' : `${rows} rows`;
  return `${head}, data from line ${mapping.firstDataLine}: ${count} over ${Number(durationS.toPrecision(7))} s${start}.`;
}

function timeWords(mapping: ExportMapping, used: readonly ColumnReading[], rows: number): string {
  const time = used.find(({ role }) => role === 'time');
  const read = `read as ${formWords[mapping.timeForm]} (${mapping.timeEvidence})`;
  if (time) return `Time: ${time.evidence}; ${read}.`;
  return `Time: no column; ${rows === 1 ? 'the row is' : 'the rows are'} counted (${mapping.timeEvidence}).`;
}

function columnWords({ role, unit, evidence }: ColumnReading): string {
  return `${roleWords[role]}${unit ? ` in ${unit}` : ''}: ${evidence}.`;
}

/** Names that stand twice and columns without one, where there is a header at all. */
function nameWords(columns: readonly ColumnReading[]): string | null {
  const numbers = new Map<string, number[]>();
  for (const { header, index } of columns) {
    const same = numbers.get(header);
    if (same) same.push(index + 1);
    else numbers.set(header, [index + 1]);
  }
  const bare = numbers.get('') ?? [];
  if (bare.length === columns.length) return null;
  const twice = [...numbers].filter(([header, at]) => header !== '' && at.length > 1);
  const words = twice
    .slice(0, 3)
    .map(([header, at]) => `the name "${shownText(header)}" stands over ${columnList(at)}`);
  if (twice.length > 3) words.push(`${twice.length - 3} more names stand over several columns`);
  if (bare.length > 0) words.push(`${columnList(bare)} ${bare.length === 1 ? 'has' : 'have'} no name`);
  const sentence = words.join('; ');
  return sentence === '' ? null : `${sentence[0]!.toUpperCase()}${sentence.slice(1)}.`;
}

/** `column 4`, `columns 2 and 4`, `columns 1, 2 and 300 more`. */
function columnList(numbers: readonly number[]): string {
  if (numbers.length === 1) return `column ${numbers[0]}`;
  const shown = numbers.length > 10 ? numbers.slice(0, 9) : numbers.slice(0, -1);
  const last = numbers.length > 10 ? `${numbers.length - 9} more` : numbers.at(-1);
  return `columns ${shown.join(', ')} and ${last}`;
}
