import { problem } from '../errors/index.js';
import { clockCell } from './clockCell.js';
import { type ExportUnit, exportUnit, unitsOf } from './exportUnits.js';
import type { ColumnGuess } from './guessColumn.js';
import { numberCell } from './numberCell.js';
import type { Layout } from './sniffLayout.js';
import type { ReadOptions } from './types.js';

/** Where the times stand: one column of numbers, or a clock column with or without a date column beside it. */
export interface TimeSource {
  readonly form: 'number' | 'clock';
  readonly index: number;
  readonly dateIndex: number | null;
  readonly header: string;
  /** The unit of elapsed time, where header or option has one. */
  readonly unit: ExportUnit | null;
}

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
  const ranked = guesses
    .filter((guess) => guess.role === 'time' && fitsForm(layout, guess, options))
    .map((guess) => ({ guess, rank: rankOf(layout, guess, dates.length > 0, options) }))
    .sort((a, b) => a.rank - b.rank);
  const best = ranked[0];
  if (!best) throw noTime(layout, place);
  const rival = ranked[1];
  if (rival && rival.rank === best.rank) throw twoTimes(best.guess, rival.guess, place);
  if (rival) warnings.push(`Times are read from ${nameOf(best.guess)}, not from ${nameOf(rival.guess)}.`);
  const form = layout.table.kinds[best.guess.index] === 'number' ? 'number' : 'clock';
  const needsDate = form === 'clock' && layout.table.kinds[best.guess.index] === 'clock';
  if (needsDate && dates.length > 1) throw twoTimes(dates[0]!, dates[1]!, place);
  return {
    form,
    index: best.guess.index,
    dateIndex: needsDate ? (dates[0]?.index ?? null) : null,
    header: best.guess.header,
    unit: timeUnit(best.guess, options),
  };
}

function fitsForm(layout: Layout, guess: ColumnGuess, options: ReadOptions): boolean {
  if (!options.timeForm) return true;
  const number = /^(elapsed-(s|ms|min|h)|epoch-(s|ms))$/.test(options.timeForm);
  return number === (layout.table.kinds[guess.index] === 'number');
}

function rankOf(layout: Layout, guess: ColumnGuess, hasDate: boolean, options: ReadOptions): number {
  const kind = layout.table.kinds[guess.index];
  const cell = layout.table.sample[0]!.cells[guess.index] ?? '';
  if (kind === 'number') return Math.abs(numberCell(cell, layout.decimal)?.value ?? 0) > 1e9 ? 1 : 2;
  if (kind === 'clock' && !hasDate) return 3;
  const zoned =
    options.zone !== undefined || clockCell(cell)?.offset != null || /\b(UTC|GMT)\b/.test(guess.header);
  return zoned ? 0 : 4;
}

function timeUnit(guess: ColumnGuess, options: ReadOptions): ExportUnit | null {
  const stated = options.units?.time;
  if (stated === undefined) return guess.unit?.role === 'time' ? guess.unit : null;
  const unit = exportUnit(stated);
  if (unit?.role === 'time') return unit;
  throw problem(
    'log-unit-unknown',
    { header: nameOf(guess), got: stated, known: unitsOf('time').join(', ') },
    { key: '--unit time' },
  );
}

function nameOf(guess: ColumnGuess): string {
  return guess.header ? `"${guess.header}"` : `column ${guess.index + 1}`;
}

function noTime(layout: Layout, place: { file: string; line: number }) {
  const got = layout.header
    .map((header, index) => (header ? `"${header}"` : `column ${index + 1}`))
    .join(', ');
  return problem(
    'log-no-time',
    { got },
    place,
    'Name it with --column, such as --column time=1 --time-form elapsed-s.',
  );
}

function twoTimes(a: ColumnGuess, b: ColumnGuess, place: { file: string; line: number }) {
  return problem(
    'log-two-readings',
    { what: `The ${a.role} column`, first: nameOf(a), second: nameOf(b) },
    place,
    `Say which with --column ${a.role}=...`,
  );
}
