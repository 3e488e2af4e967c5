import { monthOf } from './monthOf.js';

/** In which order day, month and year stand in a date of numbers. */
export type Order = 'day-first' | 'month-first' | 'year-first';

/** How a date is written; only that of three numbers can be read in more than one order. */
export type DateWriting = 'numbers' | 'named' | 'ordinal' | 'week';

const dayMs = 86_400_000;

/** How a date of `ClockCell` is written. */
export function dateWriting(date: string): DateWriting {
  if (/^\d{4}-W/.test(date)) return 'week';
  if (/[A-Z]/.test(date)) return 'named';
  return /^\d{4}-\d{3}$/.test(date) ? 'ordinal' : 'numbers';
}

/** The order in which a date with a named month is written. */
export function namedOrder(date: string): Order {
  if (/^\d{4}/.test(date)) return 'year-first';
  return /^\d/.test(date) ? 'day-first' : 'month-first';
}

/** Days from 1970-01-01 to a date of `ClockCell`; `null` where it is no date of the calendar in this order. */
export function calendarDay(date: string, order: Order): number | null {
  switch (dateWriting(date)) {
    case 'week':
      return weekDay(Number(date.slice(0, 4)), Number(date.slice(6, 8)), Number(date.slice(9)));
    case 'ordinal':
      return ordinalDay(Number(date.slice(0, 4)), Number(date.slice(5)));
    case 'named':
      return namedDay(date);
    default:
      return numbersDay(date, order);
  }
}

function dayOf(year: number, month: number, day: number): number | null {
  if (year < 1970 || year > 2199 || month < 1 || month > 12 || day < 1) return null;
  const date = new Date(Date.UTC(year, month - 1, day));
  return date.getUTCDate() === day ? date.getTime() / dayMs : null;
}

function numbersDay(date: string, order: Order): number | null {
  const texts = date.split(/[-/.]/);
  const yearAt = order === 'year-first' ? 0 : 2;
  if (texts.some((text, index) => text.length > 2 && (index !== yearAt || text.length !== 4))) return null;
  const year = Number(texts[yearAt]!.length === 4 ? texts[yearAt] : `20${texts[yearAt]!.padStart(2, 'x')}`);
  if (Number.isNaN(year)) return null;
  const month = Number(texts[order === 'month-first' ? 0 : 1]);
  const day = Number(texts[order === 'day-first' ? 0 : order === 'month-first' ? 1 : 2]);
  return dayOf(year, month, day);
}

function namedDay(date: string): number | null {
  const parts = date.split(' ');
  const name = parts.find((part) => /\D/.test(part))!;
  const [first, second] = parts.filter((part) => part !== name).map(Number) as [number, number];
  const [year, day] = namedOrder(date) === 'year-first' ? [first, second] : [second, first];
  return dayOf(year, monthOf(name) ?? 0, day);
}

function ordinalDay(year: number, day: number): number | null {
  const first = dayOf(year, 1, 1);
  const last = dayOf(year, 12, 31);
  return first !== null && last !== null && day >= 1 && first + day - 1 <= last ? first + day - 1 : null;
}

// By ISO 8601 weeks begin on Monday, and week 1 is the one with 4 January in it.
function weekDay(year: number, week: number, day: number): number | null {
  if (week < 1 || day < 1 || day > 7) return null;
  const start = firstMonday(year);
  const next = firstMonday(year + 1);
  if (start === null || next === null || start + 7 * week > next) return null;
  return start + 7 * (week - 1) + day - 1;
}

function firstMonday(year: number): number | null {
  const fourth = dayOf(year, 1, 4);
  // 1970-01-01 was a Thursday: three days after a Monday.
  return fourth === null ? null : fourth - ((fourth + 3) % 7);
}
