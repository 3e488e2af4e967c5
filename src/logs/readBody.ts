import type { Assignment } from './assignColumns.js';
import { GrowingArray } from './GrowingArray.js';
import { missingWarnings } from './missingWarnings.js';
import { ColumnTotals } from './scan/ColumnTotals.js';
import { type ExportBytes, offsetOfLine } from './scan/exportBytes.js';
import { RowBuffer } from './scan/RowBuffer.js';
import { RowReader } from './scan/RowReader.js';
import type { Layout } from './sniffLayout.js';
import { TimeRows } from './TimeRows.js';
import type { QuantityRole } from './types.js';

const bufferRows = 2048;

/** The rows of an export as numbers, in the order of the file. */
export interface Body {
  readonly times: TimeRows;
  readonly lines: Float64Array;
  readonly values: ReadonlyMap<QuantityRole, Float64Array>;
  readonly steps: ReadonlyMap<QuantityRole, number | null>;
}

/** Reads all rows from the first data line on; a cell that is no number is an error that names it. */
export function readBody(
  source: ExportBytes,
  layout: Layout,
  assignment: Assignment,
  warnings: string[],
  file: string,
  grammarOnly = false,
): Body {
  const { bytes, encoding, endsWithLineFeed } = source;
  const times = new TimeRows();
  const lines = new GrowingArray();
  const values = assignment.values.map(() => new GrowingArray());
  const totals = new ColumnTotals(values.length);
  const buffer = new RowBuffer(values.length, bufferRows);
  const firstLine = layout.table.firstDataLine;
  const setup = { layout, assignment, encoding, file, grammarOnly };
  const reader = new RowReader(setup, buffer, firstLine, endsWithLineFeed, () => {
    totals.add(buffer);
    times.add(buffer);
    for (const [slot, column] of buffer.columns.entries()) values[slot]!.append(column.values, buffer.rows);
    for (let row = 0; row < buffer.rows; row++) lines.push(buffer.lineOf(row));
  });
  const from = offsetOfLine(bytes, firstLine);
  reader.read({ bytes, from, to: bytes.length, offset: from, isLast: true });
  reader.finish(totals, endsWithLineFeed, warnings);
  times.parts = reader.slow.form?.parts ?? 0;
  warnings.push(...missingWarnings(assignment.values, totals.missing, totals.rows));
  return {
    times,
    lines: lines.toArray(),
    values: new Map(assignment.values.map(({ role }, slot) => [role, values[slot]!.toArray()])),
    steps: new Map(assignment.values.map(({ role }, slot) => [role, totals.steps[slot]!.stepSi()])),
  };
}
