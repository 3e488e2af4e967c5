import type { CsvRecord } from './types.js';

/** Makes one cell of every two, `12` and `5` into `12,5`; records of another width stay as they are. */
export function joinPairs(record: CsvRecord, width: number): CsvRecord {
  if (record.cells.length !== width) return record;
  const cells: string[] = [];
  for (let i = 0; i + 1 < width; i += 2) cells.push(`${record.cells[i]},${record.cells[i + 1]}`);
  return { cells, line: record.line };
}
