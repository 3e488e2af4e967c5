import { shownName } from './shownNames.js';
import type { ValueColumn } from './pickValues.js';

/** Sentences about cells that held no value. */
export function missingWarnings(
  columns: readonly ValueColumn[],
  missing: readonly number[],
  rows: number,
): string[] {
  return columns.flatMap((column, slot) => {
    const name = shownName(column);
    const count = missing[slot]!;
    if (count === rows && rows > 0) return [`${name} has no value in any row.`];
    if (count === 0) return [];
    return [`${name} has no value in ${count} of ${rows} rows; they are unknown, not zero.`];
  });
}
