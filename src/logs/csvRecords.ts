import { createRequire } from 'node:module';
import type * as CsvParse from 'csv-parse/sync';
import { problem } from '../errors/index.js';
import type { CsvRecord } from './types.js';

// Loaded on first need: few exports have a quote in them.
const require = createRequire(import.meta.url);
const grammar = (): typeof CsvParse => require('csv-parse/sync');

/**
 * The door to the CSV grammar: cuts a text into records and hands each over as it comes, so that no table of all
 * cells is ever held. Cells stay text. `limit` stops after so many records; `line` is the number of the text's first
 * line, 1 where nothing else is said. A quote that is still open at the end is an error, but where the text isn't `whole`: then the line at
 * which that record begins comes back, which is `null` otherwise.
 */
export function csvRecords(
  text: string,
  options: {
    readonly delimiter: string;
    readonly file: string;
    readonly limit?: number;
    readonly line?: number;
    readonly whole?: boolean;
  },
  visit: (record: CsvRecord) => void,
): number | null {
  let line = options.line ?? 1;
  const before = line - 1;
  const { CsvError, parse } = grammar();
  try {
    parse(text, {
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
    return null;
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    if (error.code !== 'CSV_QUOTE_NOT_CLOSED')
      throw problem('log-csv-bad', { why: error.message }, { file: options.file, line });
    if (options.whole === false) return line;
    throw problem('log-quote-open', {}, { file: options.file, line });
  }
}
