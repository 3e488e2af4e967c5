import { CsvError, parse } from 'csv-parse/sync';
import { problem } from '../errors/index.js';
import type { CsvRecord } from './types.js';

/**
 * The door to the CSV grammar: cuts a text into records and hands each over as it comes, so that no table of all
 * cells is ever held. Cells stay text. `limit` stops after so many records; `fromLine` begins at a line, counted from
 * 1, which spares the parser an error object for each row that is wider than a preamble.
 */
export function csvRecords(
  text: string,
  options: {
    readonly delimiter: string;
    readonly file: string;
    readonly limit?: number;
    readonly fromLine?: number;
  },
  visit: (record: CsvRecord) => void,
): void {
  let line = options.fromLine ?? 1;
  const before = line - 1;
  try {
    parse(fromLineOf(text, line), {
      delimiter: options.delimiter,
      record_delimiter: '\n',
      relax_column_count: true,
      relax_quotes: true,
      ...(options.limit === undefined ? {} : { to: options.limit }),
      on_record: (cells: string[], context: { lines: number }) => {
        visit({ cells, line });
        line = before + context.lines + 1;
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

/** The text from a line on. */
function fromLineOf(text: string, line: number): string {
  let at = 0;
  for (let i = 1; i < line; i++) at = text.indexOf('\n', at) + 1;
  return text.slice(at);
}
