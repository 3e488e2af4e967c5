import type { Assignment } from './assignColumns.js';
import { ColumnReader } from './ColumnReader.js';
import { csvRecords } from './csvRecords.js';
import { GrowingArray } from './GrowingArray.js';
import { joinPairs } from './joinPairs.js';
import type { Layout } from './sniffLayout.js';
import { TimeRows } from './TimeRows.js';
import { Trailer } from './Trailer.js';
import type { QuantityRole } from './types.js';

/** The rows of an export as numbers, in the order of the file. */
export interface Body {
  readonly times: TimeRows;
  readonly lines: Float64Array;
  readonly values: ReadonlyMap<QuantityRole, Float64Array>;
  readonly steps: ReadonlyMap<QuantityRole, number | null>;
}

/** Reads all rows from the first data line on; a cell that is no number is an error that names it. */
export function readBody(
  text: string,
  layout: Layout,
  assignment: Assignment,
  warnings: string[],
  file: string,
): Body {
  const times = new TimeRows(assignment.time, layout.decimal);
  const lines = new GrowingArray();
  const readers = assignment.values.map((column) => new ColumnReader(column, layout.decimal, file));
  const trailer = new Trailer(layout, text.endsWith('\n'), file);
  const fromLine = layout.table.firstDataLine;
  csvRecords(text, { delimiter: layout.delimiter, file, fromLine }, (raw) => {
    if (raw.cells.every((cell) => cell.trim() === '')) return;
    const record = layout.pairs ? joinPairs(raw, 2 * layout.table.width) : raw;
    if (trailer.repeatsHeader(record)) return;
    if (!trailer.fits(record)) return trailer.setAside(record, 'ragged');
    if (!times.take(record.cells, record.line))
      return trailer.setAside(record, 'time', record.cells[assignment.time.index]);
    trailer.refuseBefore();
    lines.push(record.line);
    for (const reader of readers) reader.take(record);
  });
  trailer.finish(lines.length, warnings);
  const lastColumn = readers.find((reader) => reader.column.index === layout.table.width - 1);
  if (!text.endsWith('\n') && lastColumn?.lastIsCut()) {
    warnings.push(
      `The last number of line ${lines.at(lines.length - 1)} is cut off at the end of the file; the line was left out.`,
    );
    for (const rows of [times, lines, ...readers.map((reader) => reader.data)]) rows.dropLast();
  }
  for (const reader of readers) reader.report(lines.length, warnings);
  return {
    times,
    lines: lines.toArray(),
    values: new Map(readers.map((reader) => [reader.column.role, reader.data.toArray()])),
    steps: new Map(readers.map((reader) => [reader.column.role, reader.steps.stepSi()])),
  };
}
