import type { Instrument } from '../workbook/index.js';

export interface DueDate {
  readonly due: string;
  /** Negative when it is past. */
  readonly days: number;
  /** "due in 12 days", "due since 3 days". */
  readonly words: string;
}

/**
 * When an instrument's next calibration or check is due, seen from a day; null where nothing says when.
 *
 * Days are whole calendar days in UTC.
 *
 * @example
 * dueDate({ due: '2028-03-01' }, new Date('2028-02-28T21:00:00Z')).words // => 'due in 2 days'
 * dueDate({ due: '2026-10-02' }, new Date('2026-10-05T08:00:00Z')).days // => -3
 * dueDate({}, new Date()) // => null
 */
export function dueDate(instrument: Instrument, day: Date): DueDate | null {
  const due = instrument.certificate?.due ?? instrument.due;
  if (due === undefined) return null;
  const today = Date.UTC(day.getUTCFullYear(), day.getUTCMonth(), day.getUTCDate());
  const days = Math.round((Date.parse(`${due}T00:00:00Z`) - today) / 86_400_000);
  const count = (n: number) => (n === 1 ? '1 day' : `${n} days`);
  const words = days > 0 ? `due in ${count(days)}` : days === 0 ? 'due today' : `${count(-days)} past due`;
  return { due, days, words };
}
