import { type CellKind, cellKind, isValueKind } from './cellKind.js';
import { exportUnit } from './exportUnits.js';
import type { CsvRecord } from './types.js';

/** The table found in the first records of an export under one delimiter. */
export interface Table {
  readonly width: number;
  /** What most cells of each column are. */
  readonly kinds: readonly CellKind[];
  readonly header: readonly string[] | null;
  readonly headerLine: number | null;
  /** The cells of a second header line that holds units only. */
  readonly unitCells: readonly string[];
  readonly firstDataLine: number;
  readonly sample: readonly CsvRecord[];
  /** Share of the records from the first data line on that look like the others. */
  readonly fit: number;
}

/** Finds the header, the unit line and the data rows; `null` where no row holds at least so many values. */
export function findTable(records: readonly CsvRecord[], least = 2): Table | null {
  const filled = records.filter((record) => record.cells.some((cell) => cell.trim() !== ''));
  const kindsOf = new Map(filled.map((record) => [record, record.cells.map(cellKind)] as const));
  const rich = filled.filter((record) => kindsOf.get(record)!.filter(isValueKind).length >= least);
  if (rich.length === 0) return null;
  const width = commonWidth(rich);
  const kinds = commonKinds(
    rich.filter((record) => record.cells.length === width).map((record) => kindsOf.get(record)!),
    width,
  );
  const alike = (record: CsvRecord) => looksLike(kindsOf.get(record)!, kinds, record.cells.length - width);
  const found = filled.findIndex(alike);
  if (found < 0) return null;
  const isHeader = (record: CsvRecord) => isHeaderLine(kindsOf.get(record)!, least);
  const first = brokenFirstRow(filled, found, width, kindsOf, isHeader) ? found - 1 : found;
  const head = headerBefore(filled, first, isHeader);
  const sample = filled.slice(first);
  return {
    width,
    kinds,
    ...head,
    firstDataLine: filled[first]!.line,
    sample,
    fit: sample.filter(alike).length / sample.length,
  };
}

function commonWidth(records: readonly CsvRecord[]): number {
  const counts = new Map<number, number>();
  for (const { cells } of records) counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]![0];
}

function commonKinds(rows: readonly CellKind[][], width: number): CellKind[] {
  return Array.from({ length: width }, (_, column) => {
    const counts = new Map<CellKind, number>();
    for (const row of rows) {
      const kind = row[column]!;
      if (kind !== 'missing') counts.set(kind, (counts.get(kind) ?? 0) + 1);
    }
    return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 'missing';
  });
}

// A data row has the value kinds of the table in its first value column (the time, as a rule) and in at least
// half of the others.
function looksLike(row: readonly CellKind[], kinds: readonly CellKind[], extra: number): boolean {
  if (extra !== 0) return false;
  const columns = kinds.flatMap((kind, column) => (isValueKind(kind) ? [column] : []));
  const same = columns.filter((column) => row[column] === kinds[column]);
  const known = columns.filter((column) => row[column] !== 'missing');
  return same.length > 0 && same[0] === columns[0] && 2 * same.length >= known.length;
}

// A row between header and data whose first cell is spoilt belongs to the data, so that it is reported as such
// and not passed over as a preamble.
function brokenFirstRow(
  filled: readonly CsvRecord[],
  found: number,
  width: number,
  kindsOf: ReadonlyMap<CsvRecord, readonly CellKind[]>,
  isHeader: (record: CsvRecord) => boolean,
): boolean {
  const row = filled[found - 1];
  const before = filled[found - 2];
  if (!row || !before || row.cells.length !== width) return false;
  return kindsOf.get(row)!.some(isValueKind) && isHeader(before) && before.cells.length >= width;
}

function isHeaderLine(kinds: readonly CellKind[], least: number): boolean {
  return kinds.length >= least && kinds.includes('text') && !kinds.some(isValueKind);
}

function headerBefore(
  filled: readonly CsvRecord[],
  first: number,
  isHeader: (record: CsvRecord) => boolean,
): Pick<Table, 'header' | 'headerLine' | 'unitCells'> {
  const none = { header: null, headerLine: null, unitCells: [] };
  const last = filled[first - 1];
  if (!last) return none;
  const above = filled[first - 2];
  const isUnitLine = unitCellsOf(last).length > 0;
  if (isUnitLine && above && isHeader(above) && above.cells.length === last.cells.length) {
    return { header: headerCells(above), headerLine: above.line, unitCells: last.cells };
  }
  return isHeader(last) ? { header: headerCells(last), headerLine: last.line, unitCells: [] } : none;
}

function unitCellsOf(record: CsvRecord): string[] {
  const cells = record.cells.map((cell) => cell.trim().replace(/^[[(]\s*|\s*[\])]$/g, ''));
  const known = cells.filter((cell) => exportUnit(cell));
  const strange = cells.some(
    (cell) => cell !== '' && cell !== '-' && !exportUnit(cell) && !/^[hdmsy:./ -]+$/i.test(cell),
  );
  return strange ? [] : known;
}

function headerCells(record: CsvRecord): string[] {
  return record.cells.map((cell, index) => (index === 0 ? cell.replace(/^\s*#+\s*(?=\S)/, '') : cell).trim());
}
