import { problem } from '../errors/index.js';
import { type ExportUnit, exportUnit, unitsOf } from './exportUnits.js';
import { mentionsRole, roleByWords, saysDifference } from './headerWords.js';
import { isMissing, numberCell } from './numberCell.js';
import { shownText } from './shownText.js';
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
  const says = header ? `header says "${shownText(header)}"` : `column ${index + 1} has no header`;
  // The unit is no word: "Time (min)" speaks of no minimum.
  const word = roleByWords(found.unit ? found.words : header);
  if (kind === 'date') {
    // "2026-278" may be a lot as well as a day of the year.
    const date = word === 'date' || word === 'time' || !hasOrdinals(layout, index);
    return date
      ? { ...base, role: 'date', evidence: `${says}, cells hold dates` }
      : { ...base, role: 'ignored', evidence: `${says}, which names no date` };
  }
  if (kind === 'datetime') return { ...base, role: 'time', evidence: `${says}, cells hold date and time` };
  if (kind === 'clock') return { ...base, role: 'time', evidence: `${says}, cells hold clock times` };
  if (kind !== 'number') return { ...base, role: 'ignored', evidence: `${says}, cells hold no numbers` };
  if (word === 'date' && !unit && hasBasicDates(layout, index))
    return { ...base, role: 'date', evidence: `${says}, cells hold dates of eight digits` };
  const where = found.unit
    ? ''
    : below
      ? `, unit line says "${below.symbol}"`
      : inCell
        ? `, cells say "${inCell.symbol}"`
        : '';
  const role = agreedRole(
    word,
    unit,
    { index, header, words: found.unit ? found.words : header },
    layout,
    file,
  );
  if ((role === 'energy' || role === 'time' || role === 'temperature') && saysDifference(header))
    return { ...base, role: 'ignored', evidence: `${says}, so each cell is a difference and no reading` };
  return { ...base, role, evidence: says + where };
}

function agreedRole(
  word: ColumnRole | null,
  unit: ExportUnit | null,
  { index, header, words }: { readonly index: number; readonly header: string; readonly words: string },
  layout: Layout,
  file: string,
): ColumnRole {
  if (word === 'ignored' || unit?.role === 'ignored') return word === 'powerFactor' ? word : 'ignored';
  if (!unit) return word === 'date' ? 'time' : (word ?? 'ignored');
  if (word === null || word === unit.role || word === 'date' || word === 'powerFactor') return unit.role;
  const place = { file, line: layout.table.headerLine ?? 1 };
  if (word === 'temperature' && /[[({<]\s*[JS]\s*[\])}>]/.test(header))
    throw problem(
      'log-two-readings',
      {
        what: `The column "${shownText(header)}"`,
        first: `temperature of a thermocouple of type ${unit.symbol.toUpperCase()}`,
        second: `${unit.role} in ${unit.symbol}`,
        choices: [
          {
            words: `temperature of a thermocouple of type ${unit.symbol.toUpperCase()}, in °C`,
            options: { column: `temperature=${index + 1}`, unit: 'temperature=°C' },
          },
          { words: `${unit.role} in ${unit.symbol}`, options: { column: `${unit.role}=${index + 1}` } },
        ],
      },
      place,
      `Say which with --column temperature=... and --unit temperature=°C, or --column ${unit.role}=...`,
    );
  // A unit settles "Supply power voltage (V)" and "T (°C)"; it can't settle "Energy (W)" or "P [Wh]", where either may be
  // meant. The unit itself is no word that speaks for it.
  if (word === 'time' || word === 'temperature' || mentionsRole(words, unit.role)) return unit.role;
  throw problem(
    'log-two-readings',
    {
      what: `The column "${shownText(header)}"`,
      first: `${word}, by its words`,
      second: `${unit.role}, by its unit ${unit.symbol}`,
      choices: [
        { words: `${unit.role} in ${unit.symbol}`, options: { column: `${unit.role}=${index + 1}` } },
        ...unitsOf(word).map((symbol) => ({
          words: `${word} in ${symbol}`,
          options: { column: `${word}=${index + 1}`, unit: `${word}=${symbol}` },
        })),
      ],
    },
    place,
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

function hasOrdinals(layout: Layout, index: number): boolean {
  return layout.table.sample.some(({ cells }) => /^\s*\d{4}-\d{3}\s*$/.test(cells[index] ?? ''));
}

// Eight digits that are a date with the year in front are none with the year at the end, so there is no doubt.
function hasBasicDates(layout: Layout, index: number): boolean {
  const { sample } = layout.table;
  const dates = sample.filter(({ cells }) =>
    /^\s*(?:19[7-9]\d|20\d\d|21\d\d)(?:0[1-9]|1[0-2])(?:0[1-9]|[12]\d|3[01])\s*$/.test(cells[index] ?? ''),
  );
  return 2 * dates.length > sample.length;
}
