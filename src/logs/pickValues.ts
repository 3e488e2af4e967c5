import { problem } from '../errors/index.js';
import { columnChoices } from './columnChoices.js';
import { type ExportUnit, exportUnit, unitsOf } from './exportUnits.js';
import type { ColumnGuess } from './guessColumn.js';
import { distinctName, shownName, shownNames } from './shownNames.js';
import { shownText } from './shownText.js';
import type { Layout } from './sniffLayout.js';
import type { QuantityRole, ReadOptions } from './types.js';
import type { ValueColumn } from './ValueColumn.js';
import { refuseDoubts } from './valueDoubts.js';

export type { ValueColumn };

const roles: readonly QuantityRole[] = [
  'power',
  'energy',
  'voltage',
  'current',
  'powerFactor',
  'temperature',
];

/** Chooses one column for each quantity and makes sure of its unit. */
export function pickValues(
  layout: Layout,
  guesses: readonly ColumnGuess[],
  options: ReadOptions,
  warnings: string[],
  file: string,
): ValueColumn[] {
  const place = { file, line: layout.table.headerLine ?? layout.table.firstDataLine };
  const withUnit = guesses.map((guess) => ({ guess, unit: unitFor(guess, options) }));
  const main = withUnit.some(
    ({ guess, unit }) => (guess.role === 'power' || guess.role === 'energy') && unit,
  );
  const values: ValueColumn[] = [];
  for (const role of roles) {
    const same = withUnit.filter(({ guess }) => guess.role === role);
    const first = same[0];
    if (!first) continue;
    const names = shownNames(same.map(({ guess }) => guess));
    if (same.length > 1) {
      const needed =
        role === 'power' || !main || (role === 'energy' && !guesses.some((guess) => guess.role === 'power'));
      if (needed)
        throw twoColumns(
          role,
          same.map(({ guess }) => guess),
          place,
        );
      warnings.push(
        `${names}: more than one ${role} column, none was read; name one with --column ${role}=...`,
      );
    } else if (first.unit || role === 'powerFactor') {
      values.push({ role, index: first.guess.index, header: first.guess.header, unit: first.unit });
    } else if (main && !(first.guess.unknownUnit && (role === 'power' || role === 'energy'))) {
      warnings.push(`${names}: no unit we know, so it was not read; state it with --unit ${role}=...`);
    } else {
      throw unitProblem(role, first.guess, place);
    }
  }
  refuseDoubts(layout, values, options, place);
  if (values.length > 0) return values;
  const got = shownNames(guesses);
  throw problem(
    'log-no-numeric',
    { got },
    place,
    'Name it with --column, such as --column power=2 --unit power=W.',
  );
}

function unitFor(guess: ColumnGuess, options: ReadOptions): ExportUnit | null {
  const stated = guess.role === 'time' || guess.role === 'date' ? undefined : options.units?.[guess.role];
  if (stated === undefined) {
    const percent = guess.role === 'powerFactor' && guess.unit?.symbol === '%';
    return percent ? { ...guess.unit!, factor: 0.01 } : guess.unit?.role === guess.role ? guess.unit : null;
  }
  const unit = exportUnit(stated);
  if (unit && unit.role === guess.role) return unit;
  if (unit?.symbol === '%' && guess.role === 'powerFactor') return { ...unit, factor: 0.01 };
  throw problem(
    'log-unit-unknown',
    { header: shownName(guess), got: stated, known: unitsOf(guess.role).join(', ') || '%' },
    { key: `--unit ${guess.role}` },
  );
}

function unitProblem(role: QuantityRole, guess: ColumnGuess, place: { file: string; line: number }) {
  const known = unitsOf(role).join(', ');
  const hint = `State it with --unit, such as --unit ${role}=${unitsOf(role)[0]}.`;
  return guess.unknownUnit
    ? problem(
        'log-unit-unknown',
        { header: shownName(guess), got: shownText(guess.unknownUnit), known },
        place,
        hint,
      )
    : problem('log-unit-missing', { header: shownName(guess), role, known }, place, hint);
}

function twoColumns(role: QuantityRole, same: readonly ColumnGuess[], place: { file: string; line: number }) {
  return problem(
    'log-two-readings',
    {
      what: `The ${role} column`,
      first: distinctName(same[0]!, same),
      second: same.length > 2 ? shownNames(same.slice(1)) : distinctName(same[1]!, same),
      choices: columnChoices(role, same),
    },
    place,
    `Say which with --column ${role}=...`,
  );
}
