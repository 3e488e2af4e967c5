import type { Readings } from './Readings.js';
import { readingsOf } from './readingsOf.js';
import type { Rows } from './Rows.js';
import type { Log } from './types.js';
import { writeTidyCsv } from './writeTidyCsv.js';

/** A quantity as a column: `si = value · factor + offset`, the way in which the reader takes it. */
interface Column {
  readonly name: string;
  readonly of: (rows: Rows) => Float64Array | null;
  readonly factor: number;
  readonly offset: number;
}

const columns: readonly Column[] = [
  { name: 'time_s', of: (rows) => rows.timesS, factor: 1, offset: 0 },
  { name: 'power_W', of: (rows) => rows.powerW, factor: 1, offset: 0 },
  { name: 'energy_Wh', of: (rows) => rows.energyJ, factor: 3600, offset: 0 },
  { name: 'voltage_V', of: (rows) => rows.voltageV, factor: 1, offset: 0 },
  { name: 'current_A', of: (rows) => rows.currentA, factor: 1, offset: 0 },
  { name: 'power_factor', of: (rows) => rows.powerFactor, factor: 1, offset: 0 },
  { name: 'temperature_degC', of: (rows) => rows.temperatureK, factor: 1, offset: 273.15 },
];

/**
 * A log as tidy CSV, piece by piece: one row a reading, the unit in each header, an empty cell for what is not known,
 * `time_utc` beside `time_s` where the clock is known. Only columns that are there are written; no text of the export
 * comes through. Numbers are the shortest that `readExport` reads back to the same value, so far as there is one.
 *
 * Units: seconds after the first row, watts, watt-hours, volts, amperes, 1, degrees Celsius.
 *
 * @example
 * const log = readExport(new TextEncoder().encode('t [min];P [kW];T [°C]\n0;0,9;11,9\n1;;12,1\n'));
 * [...logCsv(log)].join('') // => "time_s,power_W,temperature_degC\n0,900,11.9\n60,,12.1\n"
 */
export function* logCsv(log: Log | Readings): Generator<string> {
  const readings = readingsOf(log);
  const { startUtcMs } = readings;
  let isFirst = true;
  for (const block of readings.outline.blocks) {
    const rows = readings.rowsOf(block);
    const there = columns.filter(({ of }) => of(rows) !== null);
    const [time = 'time_s', ...others] = there.map(({ name }) => name);
    const names = [time, ...(startUtcMs === null ? [] : ['time_utc']), ...others];
    const records = Array.from(rows.timesS, (timeS, row) => {
      const record: Record<string, string | number | null> = {};
      for (const column of there) record[column.name] = shortest(column.of(rows)![row]!, column);
      if (startUtcMs !== null) record.time_utc = utcText(startUtcMs, timeS, readings.outline.endS);
      return record;
    });
    yield writeTidyCsv(records, names, { header: isFirst });
    isFirst = false;
  }
}

/** The number with the fewest digits that comes back to the same SI value; `null` for an unknown one. */
function shortest(si: number, { factor, offset }: Column): number | null {
  if (Number.isNaN(si)) return null;
  if (factor === 1 && offset === 0) return si;
  const value = (si - offset) / factor;
  for (const digits of [7, 11, 15]) {
    const short = Number(value.toPrecision(digits));
    if (short * factor + offset === si) return short;
  }
  return value;
}

// Up to this length a double holds the seconds of a log to the nanosecond.
const longForNanosecondsS = 1e5;

/** The moment in ISO 8601, to the millisecond or as much finer as the log knows it. */
function utcText(startUtcMs: number, timeS: number, endS: number): string {
  const startUs = Math.round(startUtcMs * 1000);
  const wholeS = Math.floor(startUs / 1e6);
  const seconds = (startUs - wholeS * 1e6) / 1e6 + timeS;
  const decimals = endS <= longForNanosecondsS ? 9 : 6;
  const [whole = '0', fraction = ''] = seconds.toFixed(decimals).split('.');
  const shown = new Date((wholeS + Number(whole)) * 1000).toISOString().slice(0, -5);
  return `${shown}.${fraction.replace(/0+$/, '').padEnd(3, '0')}Z`;
}
