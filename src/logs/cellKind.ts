import { clockCell } from './clockCell.js';
import { isMissing, numberCell } from './numberCell.js';

/** What a cell could be, before the decimal sign and the order of day and month are settled. */
export type CellKind = 'missing' | 'number' | 'clock' | 'date' | 'datetime' | 'text';

/** Tells numbers, dates and times from text. */
export function cellKind(cell: string): CellKind {
  if (isMissing(cell)) return 'missing';
  if (numberCell(cell, '.') || numberCell(cell, ',')) return 'number';
  const clock = clockCell(cell);
  if (!clock) return 'text';
  if (clock.date === null) return 'clock';
  return clock.seconds === null ? 'date' : 'datetime';
}

/** Whether cells of this kind can carry a value. */
export function isValueKind(kind: CellKind): boolean {
  return kind !== 'missing' && kind !== 'text';
}
