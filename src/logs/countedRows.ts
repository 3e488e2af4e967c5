import { problem } from '../errors/index.js';
import type { ColumnGuess } from './guessColumn.js';
import { timeForms } from './names.js';
import type { TimeSource } from './TimeSource.js';
import { shownName } from './shownNames.js';
import type { ReadOptions } from './types.js';

/**
 * The source of times where rows of a stated interval are counted, or `null` where no interval is stated. A time column
 * beside a stated interval is a second reading, which `--time-form row-count` settles.
 */
export function countedRows(
  times: readonly ColumnGuess[],
  { intervalS, timeForm }: ReadOptions,
  place: { readonly file: string; readonly line: number },
): TimeSource | null {
  if (timeForm !== undefined && !timeForms.includes(timeForm))
    throw problem(
      'log-option-bad',
      { got: timeForm, expected: `one of ${timeForms.join(', ')}` },
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
        choices: [
          { words: `from ${shownName(rival)}, without --interval`, options: { interval: '' } },
          { words: `from the count of rows, ${intervalS} s each`, options: { 'time-form': 'row-count' } },
        ],
      },
      place,
      'Leave out --interval, or count the rows with --time-form row-count.',
    );
  return { form: 'count', index: -1, dateIndex: null, header: '', unit: null, decimals: 0 };
}
