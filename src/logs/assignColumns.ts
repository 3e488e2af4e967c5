import { problem } from '../errors/index.js';
import { columnChoices } from './columnChoices.js';
import { type ColumnGuess, guessColumn } from './guessColumn.js';
import { pickTime, type TimeSource } from './pickTime.js';
import { pickValues, type ValueColumn } from './pickValues.js';
import { shownName, shownNames } from './shownNames.js';
import { shownText } from './shownText.js';
import { textColumnWarnings } from './textColumns.js';
import type { Layout } from './sniffLayout.js';
import type { ColumnReading, ColumnRole, ReadOptions } from './types.js';

/** Which columns are read, as what, and how the rest is accounted for. */
export interface Assignment {
  readonly columns: readonly ColumnReading[];
  readonly time: TimeSource;
  readonly values: readonly ValueColumn[];
  readonly warnings: readonly string[];
}

/** Gives every column its role: what the user states wins, then header words and units. */
export function assignColumns(layout: Layout, options: ReadOptions, file: string): Assignment {
  const stated = statedColumns(layout, options, file);
  const guesses = layout.table.kinds.map((_, index) => {
    const role = stated.get(index);
    // A stated column needs no guess, so a header that says two things at once does no harm there.
    return role ? statedGuess(layout, index, role, file) : guessColumn(layout, index, file);
  });
  const statedRoles = new Set(stated.values());
  const settled = guesses.map((guess) =>
    !stated.has(guess.index) && guess.role !== 'ignored' && statedRoles.has(guess.role)
      ? { ...guess, role: 'ignored' as const, evidence: `${guess.evidence}, but another column was stated` }
      : guess,
  );
  const warnings = textColumnWarnings(layout, settled);
  const time = pickTime(layout, settled, options, warnings, file);
  const values = pickValues(layout, settled, options, warnings, file);
  const units = new Map(values.map((value) => [value.index, value.unit]));
  const used = new Set([time.index, time.dateIndex, ...units.keys()]);
  const columns = settled.map(
    ({ index, header, role, unit, evidence }): ColumnReading => ({
      index,
      header,
      role: used.has(index) ? role : 'ignored',
      unit: units.get(index)?.symbol ?? unit?.symbol ?? null,
      evidence,
    }),
  );
  return { columns, time, values, warnings };
}

function statedGuess(layout: Layout, index: number, role: ColumnRole, file: string): ColumnGuess {
  const header = layout.header[index] ?? '';
  const evidence = `stated by --column ${role}=${shownText(header) || index + 1}`;
  try {
    return { ...guessColumn(layout, index, file), role, evidence };
  } catch {
    return { index, header, role, unit: null, unknownUnit: null, evidence };
  }
}

function statedColumns(layout: Layout, options: ReadOptions, file: string): Map<number, ColumnRole> {
  const stated = new Map<number, ColumnRole>();
  for (const [role, name] of Object.entries(options.columns ?? {}) as [ColumnRole, string][]) {
    const place = {
      file,
      line: layout.table.headerLine ?? layout.table.firstDataLine,
      key: `--column ${role}`,
    };
    const [index, ...others] = columnsNamed(layout, name);
    const all = layout.header.map((header, at) => ({ header, index: at }));
    if (index === undefined)
      throw problem('log-column-missing', { got: shownText(name), known: shownNames(all) }, place);
    if (others.length > 0) {
      throw problem(
        'log-two-readings',
        {
          what: `The name ${shownName(all[index]!)}`,
          first: `column ${index + 1}`,
          second: shownNames(others.map((at) => ({ header: '', index: at }))),
          choices: columnChoices(
            role,
            [index, ...others].map((at) => ({ header: '', index: at })),
          ),
        },
        place,
        `Name it by its number, such as --column ${role}=${index + 1}.`,
      );
    }
    stated.set(index, role);
  }
  return stated;
}

/** The columns with this header, as it stands or else in any case, or the one with this number. */
function columnsNamed(layout: Layout, name: string): number[] {
  const like = (plain: (text: string) => string) =>
    layout.header.flatMap((header, at) => (header !== '' && plain(header) === plain(name) ? [at] : []));
  const exact = like((text) => text.trim());
  const found = exact.length > 0 ? exact : like((text) => text.trim().toLowerCase());
  if (found.length > 0) return found;
  const number = /^\d+$/.test(name.trim()) ? Number(name) : 0;
  return number >= 1 && number <= layout.table.width ? [number - 1] : [];
}
