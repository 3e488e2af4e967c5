import { problem } from '../errors/index.js';
import { type ColumnGuess, guessColumn } from './guessColumn.js';
import { pickTime, type TimeSource } from './pickTime.js';
import { pickValues, type ValueColumn } from './pickValues.js';
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
  const warnings: string[] = [];
  const time = pickTime(layout, settled, options, warnings, file);
  const values = pickValues(layout, settled, options, warnings, file);
  const used = new Set([time.index, time.dateIndex, ...values.map((value) => value.index)]);
  const columns = settled.map((guess): ColumnReading => {
    const value = values.find((one) => one.index === guess.index);
    return {
      index: guess.index,
      header: guess.header,
      role: used.has(guess.index) ? guess.role : 'ignored',
      unit: value?.unit?.symbol ?? guess.unit?.symbol ?? null,
      evidence: guess.evidence,
    };
  });
  return { columns, time, values, warnings };
}

function statedGuess(layout: Layout, index: number, role: ColumnRole, file: string): ColumnGuess {
  const header = layout.header[index] ?? '';
  const evidence = `stated by --column ${role}=${header || index + 1}`;
  try {
    return { ...guessColumn(layout, index, file), role, evidence };
  } catch {
    return { index, header, role, unit: null, unknownUnit: null, evidence };
  }
}

function statedColumns(layout: Layout, options: ReadOptions, file: string): Map<number, ColumnRole> {
  const stated = new Map<number, ColumnRole>();
  for (const [role, name] of Object.entries(options.columns ?? {}) as [ColumnRole, string][]) {
    const index = columnNamed(layout, name);
    if (index === null) {
      const known = layout.header.map((header, at) => (header ? `"${header}"` : `${at + 1}`)).join(', ');
      throw problem(
        'log-column-missing',
        { got: name, known },
        { file, line: layout.table.headerLine ?? layout.table.firstDataLine, key: `--column ${role}` },
      );
    }
    stated.set(index, role);
  }
  return stated;
}

function columnNamed(layout: Layout, name: string): number | null {
  const plain = (text: string) => text.trim().toLowerCase();
  const exact = layout.header.findIndex((header) => header !== '' && plain(header) === plain(name));
  if (exact >= 0) return exact;
  const number = /^\d+$/.test(name.trim()) ? Number(name) : 0;
  return number >= 1 && number <= layout.table.width ? number - 1 : null;
}
