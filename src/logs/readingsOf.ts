import { cutRows } from './cutRows.js';
import { exportUnit } from './exportUnits.js';
import type { Block } from './outline/Block.js';
import { OutlineBuilder } from './outline/OutlineBuilder.js';
import type { Readings } from './Readings.js';
import type { ExportMapping, Log } from './types.js';

const batchRows = 1024;
const known = new WeakMap<Log, Readings>();

/** A log in memory, cut into blocks; one that comes in blocks already stays as it is. */
export function readingsOf(log: Log | Readings): Readings {
  if ('outline' in log) return log;
  const before = known.get(log);
  if (before) return before;
  const builder = new OutlineBuilder(counterUnitJ(log.mapping));
  for (let from = 0; from < log.rows; from += batchRows)
    builder.add(cutRows(log, from, Math.min(log.rows, from + batchRows)));
  const readings: Readings = {
    mapping: log.mapping,
    rows: log.rows,
    startUtcMs: log.startUtcMs,
    warnings: log.warnings,
    resolution: log.resolution,
    has: { power: log.powerW !== null, energy: log.energyJ !== null, temperature: log.temperatureK !== null },
    outline: builder.finish(),
    rowsOf: ({ firstRow, rows }: Block) => cutRows(log, firstRow, firstRow + rows),
  };
  known.set(log, readings);
  return readings;
}

/** The unit in which the counter counts, joules: it runs over at a power of ten of it. */
export function counterUnitJ(mapping: ExportMapping): number {
  const column = mapping.columns.find(({ role }) => role === 'energy');
  return exportUnit(column?.unit ?? 'J')?.factor ?? 1;
}
