import type { Choice } from '../errors/index.js';
import { distinctName } from './shownNames.js';
import type { ColumnRole } from './types.js';

/** Columns that may all be what is looked for, each with the option that names it: by its number, which is always one. */
export function columnChoices(
  role: ColumnRole,
  columns: readonly { readonly header: string; readonly index: number }[],
): Choice[] {
  return columns.map((column) => ({
    words: distinctName(column, columns),
    options: { column: `${role}=${column.index + 1}` },
  }));
}
