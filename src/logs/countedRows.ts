import { problem } from '../errors/index.js';
import type { ColumnGuess } from './guessColumn.js';
import type { TimeSource } from './TimeSource.js';
import { shownName } from './shownNames.js';
import type { ReadOptions, TimeForm } from './types.js';

const forms: Readonly<Record<TimeForm, true>> = {
  'elapsed-s': true,
  'elapsed-ms': true,
  'elapsed-min': true,
  'elapsed-h': true,
  'elapsed-hms': true,
  'elapsed-mmss': true,
  iso: true,
  'day-first': true,
  'month-first': true,
  'year-first': true,
  'epoch-s': true,
  'epoch-ms': true,
  'serial-days': true,
  'row-count': true,
};

/**
 * The source of times where rows of a stated interval are counted, or `null` where no interval is stated. A time column
 * beside a stated interval is a second reading, which `--time-form row-count` settles.
 */
export function countedRows(
  times: readonly ColumnGuess[],
  { intervalS, timeForm }: ReadOptions,
  place: { readonly file: string; readonly line: number },
): TimeSource | null {
  if (timeForm !== undefined && !Object.hasOwn(forms, timeForm))
    throw problem(
      'log-option-bad',
      { got: timeForm, expected: `one of ${Object.keys(forms).join(', ')}` },
      { key: '--time-form' },
    );
  if (intervalS === undefined) {
    if (timeForm !== 'row-count') return null;
    throw problem(
      'log-option-bad',
      { got: timeForm, expected: 'the time from row to row beside it, such as --interval 10s,' },
      { key: '--time-form' },
    );
  }
  if (!Number.isFinite(intervalS) || intervalS <= 0)
    throw problem(
      'log-option-bad',
      { got: `${intervalS} s`, expected: 'a time from row to row above zero, such as 10s,' },
      { key: '--interval' },
    );
  if (timeForm !== undefined && timeForm !== 'row-count')
    throw problem(
      'log-option-bad',
      { got: timeForm, expected: 'row-count, or no --interval,' },
      { key: '--time-form' },
    );
  const rival = times[0];
  if (rival && timeForm === undefined)
    throw problem(
      'log-two-readings',
      {
        what: 'The time',
        first: `from ${shownName(rival)}`,
        second: `from the count of rows, ${intervalS} s each`,
      },
      place,
      'Leave out --interval, or count the rows with --time-form row-count.',
    );
  return { form: 'count', index: -1, dateIndex: null, header: '', unit: null, decimals: 0 };
}
