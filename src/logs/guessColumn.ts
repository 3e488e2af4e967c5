import { problem } from '../errors/index.js';
import { type ExportUnit, exportUnit } from './exportUnits.js';
import { mentionsRole, roleByWords } from './headerWords.js';
import { isMissing, numberCell } from './numberCell.js';
import type { Layout } from './sniffLayout.js';
import type { ColumnRole } from './types.js';
import { unitOfHeader } from './unitOfHeader.js';

/** What one column looks like by itself. */
export interface ColumnGuess {
  readonly index: number;
  readonly header: string;
  readonly role: ColumnRole;
  readonly unit: ExportUnit | null;
  /** Bracketed text that should be a unit and isn't one we know. */
  readonly unknownUnit: string | null;
  readonly evidence: string;
}

/** Guesses the role of a column from the words of its header, its unit and the form of its cells. */
export function guessColumn(layout: Layout, index: number, file: string): ColumnGuess {
  const header = layout.header[index] ?? '';
  const kind = layout.table.kinds[index]!;
  const found = unitOfHeader(header);
  const below = exportUnit((layout.table.unitCells[index] ?? '').replace(/^\s*[[(]|[\])]\s*$/g, ''));
  const inCell = kind === 'number' ? unitInCells(layout, index) : null;
  const unit = found.unit ?? below ?? inCell;
  const unknownUnit = unit ? null : (found.unknown ?? null);
  const base = { index, header, unit, unknownUnit };
  const says = header ? `header says "${header}"` : `column ${index + 1} has no header`;
  if (kind === 'date') return { ...base, role: 'date', evidence: `${says}, cells hold dates` };
  if (kind === 'datetime') return { ...base, role: 'time', evidence: `${says}, cells hold date and time` };
  if (kind === 'clock') return { ...base, role: 'time', evidence: `${says}, cells hold clock times` };
  if (kind !== 'number') return { ...base, role: 'ignored', evidence: `${says}, cells hold no numbers` };
  const where = found.unit
    ? ''
    : below
      ? `, unit line says "${below.symbol}"`
      : inCell
        ? `, cells say "${inCell.symbol}"`
        : '';
  const word = roleByWords(header);
  const role = agreedRole(word, unit, header, layout, file);
  return { ...base, role, evidence: says + where };
}

function agreedRole(
  word: ColumnRole | null,
  unit: ExportUnit | null,
  header: string,
  layout: Layout,
  file: string,
): ColumnRole {
  if (word === 'ignored' || unit?.role === 'ignored') return word === 'powerFactor' ? word : 'ignored';
  if (!unit) return word === 'date' ? 'time' : (word ?? 'ignored');
  if (word === null || word === unit.role || word === 'date' || word === 'powerFactor') return unit.role;
  // A unit settles "Supply power voltage (V)" and "T (°C)"; it can't settle "Energy (W)", where either may be meant.
  if (word === 'time' || word === 'temperature' || mentionsRole(header, unit.role)) return unit.role;
  throw problem(
    'log-two-readings',
    {
      what: `The column "${header}"`,
      first: `${word}, by its words`,
      second: `${unit.role}, by its unit ${unit.symbol}`,
    },
    { file, line: layout.table.headerLine ?? 1 },
    `Say which with --column ${unit.role}=... or --column ${word}=... (and --unit ${word}=...).`,
  );
}

function unitInCells(layout: Layout, index: number): ExportUnit | null {
  for (const { cells } of layout.table.sample) {
    const cell = cells[index] ?? '';
    if (isMissing(cell)) continue;
    const unit = (numberCell(cell, layout.decimal) ?? undefined)?.unit;
    if (unit) return unit;
  }
  return null;
}
