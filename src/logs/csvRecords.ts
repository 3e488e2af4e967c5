import { CsvError, parse } from 'csv-parse/sync';
import { problem } from '../errors/index.js';
import type { CsvRecord } from './types.js';

/**
 * The door to the CSV grammar: cuts a text into records and hands each over as it comes, so that no table of all
 * cells is ever held. Cells stay text. `limit` stops after so many records.
 */
export function csvRecords(
  text: string,
  options: { readonly delimiter: string; readonly file: string; readonly limit?: number },
  visit: (record: CsvRecord) => void,
): void {
  let line = 1;
  try {
    parse(text, {
      delimiter: options.delimiter,
      record_delimiter: '\n',
      relax_column_count: true,
      relax_quotes: true,
      ...(options.limit === undefined ? {} : { to: options.limit }),
      on_record: (cells: string[], context: { lines: number }) => {
        visit({ cells, line });
        line = context.lines + 1;
        return null;
      },
    });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    if (error.code === 'CSV_QUOTE_NOT_CLOSED')
      throw problem('log-quote-open', {}, { file: options.file, line });
    throw problem('log-csv-bad', { why: error.message }, { file: options.file, line });
  }
}
