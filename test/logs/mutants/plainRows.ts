import type { ColumnRole, ExportMapping } from '../../../src/logs/index.js';

/** The rows of an export in the order of the file; what can't be read is NaN. SI units, seconds from any origin. */
export interface PlainRows {
  readonly timesS: readonly number[];
  readonly powerW: readonly number[] | null;
  readonly energyJ: readonly number[] | null;
  readonly voltageV: readonly number[] | null;
  readonly currentA: readonly number[] | null;
  readonly powerFactor: readonly number[] | null;
  readonly temperatureK: readonly number[] | null;
}

const factors: Record<string, number> = {
  kW: 1e3,
  mW: 1e-3,
  MW: 1e6,
  Wh: 3600,
  kWh: 3.6e6,
  mWh: 3.6,
  MWh: 3.6e9,
  kJ: 1e3,
  MJ: 1e6,
  mV: 1e-3,
  kV: 1e3,
  mA: 1e-3,
  '%': 0.01,
};
const elapsed: Record<string, number> = {
  'elapsed-s': 1,
  'elapsed-ms': 1e-3,
  'elapsed-min': 60,
  'elapsed-h': 3600,
  'epoch-s': 1,
  'epoch-ms': 1e-3,
  'serial-days': 86_400,
};

/**
 * Reads the rows in the plainest way there is: lines cut at line ends, cells at the delimiter, numbers by `Number`. The
 * program says only which column is which. `null` where fewer than nine rows in ten can be read so.
 */
export function plainRows(bytes: Uint8Array, mapping: ExportMapping): PlainRows | null {
  const label = mapping.encoding === 'latin1' ? 'windows-1252' : mapping.encoding;
  const lines = new TextDecoder(label).decode(bytes).split(/\r\n|\n|\r/);
  const rows = lines
    .slice(mapping.firstDataLine - 1)
    .map((line) => line.split(mapping.delimiter).map((cell) => cell.replaceAll('"', '').trim()))
    .filter((cells) => cells.some((cell) => cell !== ''));
  const times = rows.map((cells) => timeOf(cells, mapping));
  const read = rows.filter((_, row) => !Number.isNaN(times[row]!));
  if (read.length < 0.9 * rows.length) return null;
  const column = (role: ColumnRole) => valuesOf(read, mapping, role);
  const [powerW, voltageV, currentA, powerFactor] = [
    column('power'),
    column('voltage'),
    column('current'),
    column('powerFactor'),
  ];
  return {
    timesS: times.filter((time) => !Number.isNaN(time)),
    powerW:
      powerW ??
      voltageV?.map((volts, i) => volts * (currentA?.[i] ?? Number.NaN) * (powerFactor?.[i] ?? 1)) ??
      null,
    energyJ: column('energy'),
    voltageV,
    currentA,
    powerFactor,
    temperatureK: column('temperature'),
  };
}

function valuesOf(rows: readonly string[][], { columns, decimal }: ExportMapping, role: ColumnRole) {
  const column = columns.find((each) => each.role === role);
  if (!column) return null;
  const unit = column.unit ?? '';
  return rows.map((cells) => {
    const value = numberOf(cells[column.index] ?? '', decimal);
    if (unit === '°C') return value + 273.15;
    return unit === '°F' ? ((value + 459.67) * 5) / 9 : value * (factors[unit] ?? 1);
  });
}

function numberOf(cell: string, decimal: string): number {
  const text = decimal === ',' ? cell.replaceAll('.', '').replace(',', '.') : cell;
  return /^[+-]?[\d.]+(?:e[+-]?\d+)?$/i.test(text) ? Number(text) : Number.NaN;
}

function timeOf(cells: readonly string[], { columns, timeForm, decimal }: ExportMapping): number {
  const cell = (role: ColumnRole) => cells[columns.find((each) => each.role === role)?.index ?? -1] ?? '';
  const factor = elapsed[timeForm];
  if (factor !== undefined) return factor * numberOf(cell('time'), decimal);
  const text = `${cell('date')} ${cell('time')}`;
  const clock = /(\d{1,2}):(\d\d)(?::(\d\d(?:[.,]\d+)?))?\s*([ap]\.?m)?/i.exec(text);
  const date =
    /(\d{4})[-/](\d\d)[-/](\d\d)/.exec(text)?.slice(1) ??
    /(\d\d)[./](\d\d)[./](\d{4})/.exec(text)?.slice(1).reverse();
  if (!clock) return Number.NaN;
  const [, hour, minute, second = '0', half] = clock;
  const hours = half ? (Number(hour) % 12) + (/p/i.test(half) ? 12 : 0) : Number(hour);
  const [year, month, day] = (date ?? ['1970', '01', '01']).map(Number) as [number, number, number];
  const days = timeForm === 'month-first' ? Date.UTC(year, day - 1, month) : Date.UTC(year, month - 1, day);
  return days / 1000 + 3600 * hours + 60 * Number(minute) + Number(second.replace(',', '.'));
}
