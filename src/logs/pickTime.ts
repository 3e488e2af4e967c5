import { problem } from '../errors/index.js';
import { clockCell } from './clockCell.js';
import { columnChoices } from './columnChoices.js';
import { countedRows } from './countedRows.js';
import { type ExportUnit, exportUnit, unitsOf } from './exportUnits.js';
import type { ColumnGuess } from './guessColumn.js';
import { headerZone } from './headerZone.js';
import { roleByWords } from './headerWords.js';
import { numberCell } from './numberCell.js';
import { distinctName, shownName, shownNames } from './shownNames.js';
import { shownText } from './shownText.js';
import type { Layout } from './sniffLayout.js';
import type { TimeSource } from './TimeSource.js';
import type { ReadOptions } from './types.js';

export type { TimeSource };

/** Finds the time column; where a clock and an elapsed time stand side by side, the clock wins if its zone is known. */
export function pickTime(
  layout: Layout,
  guesses: readonly ColumnGuess[],
  options: ReadOptions,
  warnings: string[],
  file: string,
): TimeSource {
  const place = { file, line: layout.table.headerLine ?? layout.table.firstDataLine };
  const dates = guesses.filter((guess) => guess.role === 'date');
  const times = guesses.filter((guess) => guess.role === 'time');
  const counted = countedRows(times, options, place);
  if (counted) return counted;
  const ranked = times
    .filter((guess) => fitsForm(layout, guess, options))
    .map((guess) => ({ guess, rank: rankOf(layout, guess, dates.length > 0, options) }))
    .sort((a, b) => a.rank - b.rank);
  const best = ranked[0];
  if (!best) throw noTime(layout, guesses, times, options, place);
  const rival = ranked[1];
  if (rival && rival.rank === best.rank) throw twoTimes(best.guess, rival.guess, place);
  if (rival)
    warnings.push(`Times are read from ${shownName(best.guess)}, not from ${shownName(rival.guess)}.`);
  const form = layout.table.kinds[best.guess.index] === 'number' ? 'number' : 'clock';
  const needsDate = form === 'clock' && layout.table.kinds[best.guess.index] === 'clock';
  if (needsDate && dates.length > 1) throw twoTimes(dates[0]!, dates[1]!, place);
  if (needsDate && dates.length > 0) refuseMinuteFractions(layout, best.guess, file);
  if (needsDate && dates.length === 0 && rival) refuseStrangeDate(layout, rival.guess, file);
  return {
    form,
    index: best.guess.index,
    dateIndex: needsDate ? (dates[0]?.index ?? null) : null,
    header: best.guess.header,
    unit: timeUnit(best.guess, options),
    decimals: form === 'number' ? decimalsOf(layout, best.guess.index) : 0,
  };
}

function fitsForm(layout: Layout, guess: ColumnGuess, options: ReadOptions): boolean {
  if (!options.timeForm) return true;
  const number = /^(elapsed-(s|ms|min|h)|epoch-(s|ms)|serial-days)$/.test(options.timeForm);
  return number === (layout.table.kinds[guess.index] === 'number');
}

// The lower, the better: a clock whose zone is known, epoch, elapsed time with its unit, a clock alone, a number
// that may be anything, a clock without its zone.
function rankOf(layout: Layout, guess: ColumnGuess, hasDate: boolean, options: ReadOptions): number {
  const kind = layout.table.kinds[guess.index];
  const cell = layout.table.sample[0]!.cells[guess.index] ?? '';
  if (kind === 'number') {
    if (Math.abs(numberCell(cell, layout.decimal)?.value ?? 0) > 1e9) return 1;
    return timeUnit(guess, options) || options.timeForm ? 2 : 4;
  }
  if (kind === 'clock' && !hasDate) return 3;
  const zoned =
    options.zone !== undefined || clockCell(cell)?.offset != null || headerZone(guess.header) !== null;
  return zoned ? 0 : 5;
}

// "10:15.5" beside a date: minutes and seconds whose hours were lost, or half past a minute?
function refuseMinuteFractions(layout: Layout, guess: ColumnGuess, file: string): void {
  for (const { cells, line } of layout.table.sample) {
    const cell = (cells[guess.index] ?? '').trim();
    if (/^\d+:\d{2}[.,]\d+$/.test(cell))
      throw problem(
        'log-time-bad',
        { got: cell, expected: 'a time of day with hours, minutes and seconds, beside its date,' },
        { file, line },
      );
  }
}

// A column that calls itself a date and holds numbers, beside a clock: without it the log would lose its date.
function refuseStrangeDate(layout: Layout, guess: ColumnGuess, file: string): void {
  const number = layout.table.kinds[guess.index] === 'number' && !guess.unit;
  if (!number || roleByWords(guess.header) !== 'date') return;
  const { cells, line } = layout.table.sample[0]!;
  throw problem(
    'log-time-bad',
    { got: cells[guess.index] ?? '', expected: 'a date such as 2026-10-05 or 20261005' },
    { file, line },
    `To go without it, say --column ignored=${guess.index + 1}.`,
  );
}

function decimalsOf(layout: Layout, index: number): number {
  const shown = layout.table.sample.map(
    ({ cells }) => numberCell(cells[index] ?? '', layout.decimal)?.decimals ?? 0,
  );
  return shown.reduce((most, decimals) => Math.max(most, decimals), 0);
}

function timeUnit(guess: ColumnGuess, options: ReadOptions): ExportUnit | null {
  const stated = options.units?.time;
  if (stated === undefined) return guess.unit?.role === 'time' ? guess.unit : null;
  const unit = exportUnit(stated);
  if (unit?.role === 'time') return unit;
  throw problem(
    'log-unit-unknown',
    { header: shownName(guess), got: stated, known: unitsOf('time').join(', ') },
    { key: '--unit time' },
  );
}

function noTime(
  layout: Layout,
  guesses: readonly ColumnGuess[],
  times: readonly ColumnGuess[],
  options: ReadOptions,
  place: { file: string; line: number },
) {
  // There are times, but not in the form that was stated.
  if (times.length > 0)
    return problem(
      'log-time-bad',
      {
        got: shownText(times[0]!.header) || `column ${times[0]!.index + 1}`,
        expected: `a column of the form ${options.timeForm}`,
      },
      place,
      'Leave out --time-form, or name another column with --column time=...',
    );
  const unread = guesses.find(
    ({ index, header }) =>
      layout.table.kinds[index] === 'text' && /^(time|date)$/.test(roleByWords(header) ?? ''),
  );
  if (unread) {
    const { cells, line } = layout.table.sample[0]!;
    return problem(
      'log-time-bad',
      {
        got: shownText(cells[unread.index] ?? ''),
        expected: 'a time of day with its date (and year), or a time from the start,',
      },
      { ...place, line },
    );
  }
  return problem(
    'log-no-time',
    { got: shownNames(guesses) },
    place,
    'Name it with --column, such as --column time=1 --time-form elapsed-s; where the export has none, state the time from row to row, such as --interval 10s.',
  );
}

function twoTimes(a: ColumnGuess, b: ColumnGuess, place: { file: string; line: number }) {
  const both = [a, b];
  return problem(
    'log-two-readings',
    {
      what: `The ${a.role} column`,
      first: distinctName(a, both),
      second: distinctName(b, both),
      choices: columnChoices(a.role, both),
    },
    place,
    `Say which with --column ${a.role}=...`,
  );
}
