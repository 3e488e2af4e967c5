import { problem } from '../errors/index.js';
import type { DateKey } from './TimeRows.js';
import type { TimeForm } from './types.js';

/** The order of day, month and year in a column, and the days since 1970-01-01 of each date in it. */
export interface DateOrder {
  readonly form: 'iso' | 'day-first' | 'month-first' | 'year-first';
  readonly days: readonly number[];
  readonly evidence: string;
}

type Order = 'day-first' | 'month-first' | 'year-first';
const orders: readonly Order[] = ['day-first', 'month-first', 'year-first'];
const dayMs = 86_400_000;

/**
 * Tells the order from the whole column: a number above 12 is no month, a year of four digits stands where it
 * stands, dots mean day first, and a log that runs over midnight goes to the next day and not to the next month.
 * Dates that allow two orders to the end are an error.
 */
export function dateOrder(
  keys: readonly DateKey[],
  header: string,
  stated: TimeForm | undefined,
  file: string,
): DateOrder {
  const possible = orders.flatMap((order) => {
    const days = keys.map((key) => dayNumber(key.date!, order));
    return days.every((day) => day !== null) ? [{ order, days: days as number[] }] : [];
  });
  const wanted = stated === 'iso' ? 'year-first' : stated;
  const open = wanted ? possible.filter(({ order }) => order === wanted) : possible;
  if (open.length === 0) throw noOrder(keys, stated, file);
  const form = (order: Order): DateOrder['form'] =>
    order === 'year-first' && keys[0]!.date!.includes('-') ? 'iso' : order;
  const only = (one: { order: Order; days: number[] }, evidence: string): DateOrder => ({
    form: form(one.order),
    days: one.days,
    evidence,
  });
  if (wanted) return only(open[0]!, 'stated by --time-form');
  if (open.length === 1) return only(open[0]!, `"${tellingDate(keys)}" allows no other order`);
  const byHeader = open.find(({ order }) => order === headerOrder(header));
  if (byHeader) return only(byHeader, `header says "${header}"`);
  const dotted = keys[0]!.date!.includes('.') && open.find(({ order }) => order === 'day-first');
  if (dotted) return only(dotted, 'dots between the numbers: day first');
  const steady = open.filter(({ days }) => longestStep(days) <= 2);
  const jumping = open.filter(({ days }) => longestStep(days) >= 20);
  if (keys.length > 1 && steady.length === 1 && jumping.length === open.length - 1) {
    return only(steady[0]!, 'only so do the days follow one another');
  }
  throw twoOrders(keys[0]!, open, file);
}

function numbersOf(date: string): { parts: number[]; lengths: number[] } {
  const texts = date.split(/[-/.]/);
  return { parts: texts.map(Number), lengths: texts.map((text) => text.length) };
}

function dayNumber(date: string, order: Order): number | null {
  const { parts, lengths } = numbersOf(date);
  const [a, b, c] = parts as [number, number, number];
  const yearAt = order === 'year-first' ? 0 : 2;
  if (lengths[yearAt] !== 4 && lengths[yearAt] !== 2) return null;
  if (lengths.some((length, index) => index !== yearAt && length > 2)) return null;
  const short = yearAt === 0 ? a : c;
  const year = lengths[yearAt] === 2 ? 2000 + short : short;
  const month = order === 'day-first' ? b : order === 'month-first' ? a : b;
  const day = order === 'day-first' ? a : order === 'month-first' ? b : c;
  if (year < 1970 || year > 2199 || month < 1 || month > 12 || day < 1) return null;
  const date0 = new Date(Date.UTC(year, month - 1, day));
  return date0.getUTCDate() === day ? date0.getTime() / dayMs : null;
}

function headerOrder(header: string): Order | null {
  if (/\b(dd?|tt|jj)[-/. ]?mm/i.test(header)) return 'day-first';
  if (/\bmm?[-/. ]?(dd|tt|jj)/i.test(header)) return 'month-first';
  return /\b(yy|aa|jjjj)/i.test(header) ? 'year-first' : null;
}

function longestStep(days: readonly number[]): number {
  let longest = 0;
  for (let i = 1; i < days.length; i++) longest = Math.max(longest, Math.abs(days[i]! - days[i - 1]!));
  return longest;
}

// The date to show as evidence: the first with a year of four digits in front or a number that is no month.
function tellingDate(keys: readonly DateKey[]): string {
  const telling = keys.find(({ date }) => numbersOf(date!).parts.some((part) => part > 12 && part < 32));
  return (telling ?? keys[0]!).date!;
}

function noOrder(keys: readonly DateKey[], stated: TimeForm | undefined, file: string) {
  const settled = orders.find((order) => dayNumber(keys[0]!.date!, order) !== null);
  const spoilt = keys.find(({ date }) => orders.every((order) => dayNumber(date!, order) === null));
  const order = stated ?? settled;
  const bad =
    spoilt ??
    keys.find(({ date }) => dayNumber(date!, (order === 'iso' ? 'year-first' : order) as Order) === null) ??
    keys[0]!;
  return problem(
    'log-time-bad',
    {
      got: bad.date!,
      expected: order
        ? `a date that is ${order.replace('-', ' ')} like the others`
        : 'a date of the calendar',
    },
    { file, line: bad.line },
  );
}

function twoOrders(key: DateKey, open: readonly { order: Order; days: number[] }[], file: string) {
  const shown = (one: { order: Order; days: number[] }) =>
    `${new Date(one.days[0]! * dayMs).toISOString().slice(0, 10)} (${one.order.replace('-', ' ')})`;
  return problem(
    'log-two-readings',
    { what: `The date "${key.date}"`, first: shown(open[0]!), second: shown(open[1]!) },
    { file, line: key.line },
    `Say which with ${open.map(({ order }) => `--time-form ${order}`).join(' or ')}.`,
  );
}
