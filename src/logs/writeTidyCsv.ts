import { createRequire } from 'node:module';
import type * as CsvStringify from 'csv-stringify/sync';

// Loaded on first need: most commands write no CSV.
const require = createRequire(import.meta.url);
const writer = (): typeof CsvStringify => require('csv-stringify/sync');

/**
 * Writes records as CSV (RFC 4180 quoting, line feeds): one header line, one row a record, in the order of
 * `columns`. A `null` is an empty cell. Text that a spreadsheet would run as a formula gets an apostrophe in front;
 * numbers, negative ones too, are written so that they read back to the same value. A table that is written in pieces
 * has its `header` in the first piece only.
 *
 * @example
 * writeTidyCsv([{ run: 'R1', energy_J: -1.5 }, { run: '=A1', energy_J: null }], ['run', 'energy_J']) // => "run,energy_J\nR1,-1.5\n'=A1,\n"
 */
export function writeTidyCsv(
  rows: readonly Readonly<Record<string, string | number | null>>[],
  columns: readonly string[],
  { header = true }: { readonly header?: boolean } = {},
): string {
  return writer().stringify([...rows], { header, columns: [...columns], escape_formulas: true });
}
