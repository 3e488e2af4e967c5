import { problem } from '../errors/index.js';
import { assignColumns } from './assignColumns.js';
import { decodeText } from './decodeText.js';
import { derivedPower } from './derivedPower.js';
import { orderRows } from './orderRows.js';
import { type Body, readBody } from './readBody.js';
import { resolveTimes } from './resolveTimes.js';
import { sniffLayout } from './sniffLayout.js';
import type { Log, QuantityRole, ReadOptions } from './types.js';

/**
 * Reads the CSV export of a wattmeter or thermometer logger: finds delimiter, decimal sign, header, units, time form
 * and columns, and brings everything to SI. What could be read in two ways is an error that names the option
 * which settles it; what was left out or put right is in `warnings`.
 *
 * Units: seconds, watts, joules, volts, amperes, kelvin. A missing cell is NaN.
 * Errors: the `log-...` codes, with file, line and value.
 *
 * @example
 * const log = readExport(new TextEncoder().encode('time_s;P [kW];T1/°F\n0;0,9;50\n10;0,9;59\n'));
 * log.timesS[1] // => 10
 * log.powerW[0] // => 900
 * log.temperatureK[1] - 273.15 // => 15
 */
export function readExport(bytes: Uint8Array, options: ReadOptions = {}): Log {
  const file = options.fileName ?? 'the export';
  const warnings: string[] = [];
  const { text, encoding } = decodeText(bytes, file);
  const layout = sniffLayout(text, options, file);
  const assignment = assignColumns(layout, options, file);
  warnings.push(...assignment.warnings);
  const body = readBody(text, layout, assignment, warnings, file);
  if (body.lines.length === 0) {
    throw problem(
      'log-no-rows',
      { header: layout.header.join(' | ') },
      { file, line: layout.table.firstDataLine },
    );
  }
  const times = resolveTimes(body.times, body.lines, assignment.time, options, warnings, file);
  const order = orderRows(times.seconds, body.lines, warnings, file);
  const first = times.seconds[order[0]!]!;
  return {
    mapping: {
      delimiter: layout.delimiter,
      decimal: layout.decimal,
      decimalEvidence: layout.decimalEvidence,
      encoding,
      headerLine: layout.table.headerLine,
      firstDataLine: layout.table.firstDataLine,
      timeForm: times.form,
      timeEvidence: times.evidence,
      zone: times.zone,
      columns: assignment.columns,
    },
    rows: order.length,
    startUtcMs: times.originUtcMs === null ? null : times.originUtcMs + first * 1000,
    timesS: Float64Array.from(order, (index) => times.seconds[index]! - first),
    ...quantities(body, order, warnings),
    warnings,
  };
}

function quantities(
  body: Body,
  order: readonly number[],
  warnings: string[],
): Pick<Log, Exclude<keyof Log, 'mapping' | 'rows' | 'startUtcMs' | 'timesS' | 'warnings'>> {
  const derived = derivedPower(body.values, body.steps);
  if (derived) warnings.push(derived.warning);
  const ordered = (values: Float64Array | undefined) =>
    values ? Float64Array.from(order, (index) => values[index]!) : null;
  const column = (role: QuantityRole) => ordered(body.values.get(role));
  const step = (role: QuantityRole) => body.steps.get(role) ?? null;
  return {
    powerW: derived ? ordered(derived.powerW) : column('power'),
    energyJ: column('energy'),
    voltageV: column('voltage'),
    currentA: column('current'),
    powerFactor: column('powerFactor'),
    temperatureK: column('temperature'),
    resolution: {
      powerW: derived ? derived.stepW : step('power'),
      energyJ: step('energy'),
      temperatureK: step('temperature'),
    },
  };
}
