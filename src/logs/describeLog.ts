import type { ColumnReading, Log, TimeForm } from './types.js';

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
  iso: 'year-month-day',
  'day-first': 'day before month',
  'month-first': 'month before day',
  'year-first': 'year before month and day',
  'epoch-s': 'seconds since 1970',
  'epoch-ms': 'milliseconds since 1970',
};
const delimiterWords: Record<string, string> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  '|': 'pipes',
};
const encodingWords = { 'utf-8': 'UTF-8', 'utf-16le': 'UTF-16', latin1: 'Latin-1' };

/**
 * Says in plain words how an export was read, with the evidence: text form, table, times, every column.
 *
 * @example
 * const log = readExport(new TextEncoder().encode('t [s],P [W]\n0,900\n10,900.5\n'));
 * describeLog(log)[3] // => "Power in W: header says \"P [W]\"."
 */
export function describeLog(log: Log): string[] {
  const { mapping, timesS, startUtcMs } = log;
  const parted = delimiterWords[mapping.delimiter] ?? `"${mapping.delimiter}"`;
  const sign = mapping.decimal === ',' ? 'decimal comma' : 'decimal point';
  const head = mapping.headerLine === null ? 'No header line' : `Header on line ${mapping.headerLine}`;
  const durationS = timesS[log.rows - 1]!;
  const start =
    startUtcMs === null ? '' : `, from ${new Date(startUtcMs).toISOString()} (zone ${mapping.zone})`;
  const used = mapping.columns.filter(({ role }) => role !== 'ignored');
  const time = used.find(({ role }) => role === 'time');
  const rest = mapping.columns.filter(({ role }) => role === 'ignored');
  return [
    `${encodingWords[mapping.encoding]} text, columns parted by ${parted}, ${sign} (${mapping.decimalEvidence}).`,
    `${head}, data from line ${mapping.firstDataLine}: ${log.rows} rows over ${Number(durationS.toPrecision(7))} s${start}.`,
    `Time as ${formWords[mapping.timeForm]} (${mapping.timeEvidence}): ${time?.evidence ?? 'no column'}.`,
    ...used.filter(({ role }) => role !== 'time').map(columnWords),
    ...(rest.length > 0
      ? [
          `Not read: ${rest.map(({ header, index }) => (header ? `"${header}"` : `column ${index + 1}`)).join(', ')}.`,
        ]
      : []),
  ];
}

function columnWords({ role, unit, evidence }: ColumnReading): string {
  return `${roleWords[role]}${unit ? ` in ${unit}` : ''}: ${evidence}.`;
}
