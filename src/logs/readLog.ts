import { problem } from '../errors/index.js';
import { assignColumns } from './assignColumns.js';
import { derivedPowerW, derivedStepW, derivedWarning, largestOf, needsDerivedPower } from './derivedPower.js';
import { orderRows } from './orderRows.js';
import { type Body, readBody } from './readBody.js';
import { resolveTimes } from './resolveTimes.js';
import { exportBytes } from './scan/exportBytes.js';
import { shownText } from './shownText.js';
import { toNanoseconds } from './toNanoseconds.js';
import { sniffLayout } from './sniffLayout.js';
import type { Log, QuantityRole, ReadOptions } from './types.js';

/** Reads an export; with `grammarOnly` every row through the full CSV grammar, to hold the fast road against it. */
export function readLog(bytes: Uint8Array, options: ReadOptions, grammarOnly = false): Log {
  const file = options.fileName ?? 'the export';
  const warnings: string[] = [];
  const source = exportBytes(bytes, file);
  const layout = sniffLayout(source.head, options, file);
  const assignment = assignColumns(layout, options, file);
  warnings.push(...assignment.warnings);
  const body = readBody(source, layout, assignment, warnings, file, grammarOnly);
  if (body.lines.length === 0) {
    throw problem(
      'log-no-rows',
      { header: shownText(layout.header.join(' | ')) },
      { file, line: layout.table.firstDataLine },
    );
  }
  const times = resolveTimes(body.times, body.lines, assignment.time, options, warnings, file);
  const origin = times.seconds[0]!;
  // Rounded before they are put in order, so that times less than a nanosecond apart are repeats.
  const rounded = times.seconds.map((time) => toNanoseconds(time - origin));
  const order = orderRows(rounded, body.lines, warnings, file);
  const ordered = (values: Float64Array): Float64Array =>
    order === null ? values : Float64Array.from(order, (index) => values[index]!);
  const seconds = ordered(rounded);
  const first = seconds[0]!;
  return {
    mapping: {
      delimiter: layout.delimiter,
      decimal: layout.decimal,
      decimalEvidence: layout.decimalEvidence,
      encoding: source.encoding,
      headerLine: layout.table.headerLine,
      firstDataLine: layout.table.firstDataLine,
      timeForm: times.form,
      timeEvidence: times.evidence,
      zone: times.zone,
      columns: assignment.columns,
    },
    rows: seconds.length,
    startUtcMs: times.originUtcMs === null ? null : times.originUtcMs + (origin + first) * 1000,
    timesS: seconds.map((time) => toNanoseconds(time - first)),
    ...quantities(body, ordered, warnings),
    warnings,
  };
}

function quantities(
  body: Body,
  ordered: (values: Float64Array) => Float64Array,
  warnings: string[],
): Pick<Log, Exclude<keyof Log, 'mapping' | 'rows' | 'startUtcMs' | 'timesS' | 'warnings'>> {
  const derived = needsDerivedPower(body.values);
  if (derived) warnings.push(derivedWarning(body.values));
  const column = (role: QuantityRole) => {
    const values = body.values.get(role);
    return values ? ordered(values) : null;
  };
  const step = (role: QuantityRole) => body.steps.get(role) ?? null;
  return {
    powerW: derived ? ordered(derivedPowerW(body.values)) : column('power'),
    energyJ: column('energy'),
    voltageV: column('voltage'),
    currentA: column('current'),
    powerFactor: column('powerFactor'),
    temperatureK: column('temperature'),
    resolution: {
      powerW: derived ? derivedStepW(largest(body.values), body.steps) : step('power'),
      energyJ: step('energy'),
      temperatureK: step('temperature'),
    },
  };
}

function largest(values: Body['values']) {
  return { voltageV: largestOf(values.get('voltage')!), currentA: largestOf(values.get('current')!) };
}
