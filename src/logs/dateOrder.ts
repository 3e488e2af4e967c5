import { problem } from '../errors/index.js';
import { calendarDay, type DateWriting, dateWriting, namedOrder, type Order } from './calendarDay.js';
import { shownText } from './shownText.js';
import type { DateKey } from './TimeRows.js';
import type { TimeForm } from './types.js';

/** The order of day, month and year in a column, and the days since 1970-01-01 of each date in it. */
export interface DateOrder {
  readonly form: 'iso' | 'day-first' | 'month-first' | 'year-first';
  readonly days: readonly number[];
  readonly evidence: string;
}

interface Open {
  readonly order: Order;
  readonly days: readonly number[];
}

const orders: readonly Order[] = ['day-first', 'month-first', 'year-first'];
const dayMs = 86_400_000;

/**
 * Tells the order from the whole column: a number above 12 is no month, a year of four digits stands where it
 * stands, dots mean day first, and a log that runs over midnight goes to the next day and not to the next month.
 * A named month leaves no doubt, nor do ordinal and week dates. Dates that allow two orders to the end are an error.
 */
export function dateOrder(
  keys: readonly DateKey[],
  header: string,
  stated: TimeForm | undefined,
  file: string,
): DateOrder {
  const writing = dateWriting(keys[0]!.date!);
  const other = keys.find(({ date }) => dateWriting(date!) !== writing);
  if (other) throw badDate(other, `a date written like "${keys[0]!.date}"`, file);
  const wanted = orders.find((order) => order === (stated === 'iso' ? 'year-first' : stated));
  if (stated && !wanted) throw badDate(keys[0]!, `a time of the form ${stated}`, file);
  if (writing !== 'numbers') return plainDates(keys, writing, wanted, file);
  const possible = orders.flatMap((order): Open[] => {
    const days = keys.map((key) => calendarDay(key.date!, order));
    return days.every((day) => day !== null) ? [{ order, days: days as number[] }] : [];
  });
  const open = wanted ? possible.filter(({ order }) => order === wanted) : possible;
  if (open.length === 0) throw noOrder(keys, wanted, file);
  const [one, evidence] = wanted ? [open[0]!, 'stated by --time-form'] : settled(keys, open, header, file);
  const iso = one.order === 'year-first' && keys[0]!.date!.includes('-');
  return { form: iso ? 'iso' : one.order, days: one.days, evidence };
}

function settled(
  keys: readonly DateKey[],
  open: readonly Open[],
  header: string,
  file: string,
): [one: Open, evidence: string] {
  const first = keys[0]!.date!;
  if (open.length === 1) {
    const year = open[0]!.order === 'year-first' && /^\d{4}/.test(first);
    return [
      open[0]!,
      year ? `"${first}" begins with the year` : `"${tellingDate(keys)}" allows no other order`,
    ];
  }
  const byHeader = open.find(({ order }) => order === headerOrder(header));
  if (byHeader) return [byHeader, `header says "${shownText(header)}"`];
  const dotted = first.includes('.') && open.find(({ order }) => order === 'day-first');
  if (dotted) return [dotted, 'dots between the numbers mean day first'];
  const steady = open.filter(({ days }) => longestStep(days) <= 2);
  const jumping = open.filter(({ days }) => longestStep(days) >= 20);
  if (keys.length > 1 && steady.length === 1 && jumping.length === open.length - 1) {
    return [steady[0]!, 'only so do the days follow one another'];
  }
  throw twoOrders(keys[0]!, open, file);
}

function plainDates(
  keys: readonly DateKey[],
  writing: DateWriting,
  wanted: Order | undefined,
  file: string,
): DateOrder {
  const first = keys[0]!.date!;
  if (writing !== 'named' && wanted && wanted !== 'year-first')
    throw badDate(keys[0]!, `a date that is ${wanted.replace('-', ' ')}, as --time-form says,`, file);
  const days = keys.map((key) => {
    const day = calendarDay(key.date!, 'year-first');
    if (day === null) throw badDate(key, 'a date of the calendar', file);
    return day;
  });
  const evidence = {
    named: `"${first}" names its month`,
    ordinal: `"${first}" is a year and the day of that year`,
    week: `"${first}" is a year, a week and a day of the week`,
    numbers: '',
  };
  return { form: writing === 'named' ? namedOrder(first) : 'iso', days, evidence: evidence[writing] };
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

// The date to show as evidence: the first with a number that is no month.
function tellingDate(keys: readonly DateKey[]): string {
  const telling = keys.find(({ date }) =>
    date!
      .split(/[-/.]/)
      .map(Number)
      .some((part) => part > 12 && part < 32),
  );
  return (telling ?? keys[0]!).date!;
}

function badDate(key: DateKey, expected: string, file: string) {
  return problem('log-time-bad', { got: key.date!, expected }, { file, line: key.line });
}

function noOrder(keys: readonly DateKey[], wanted: Order | undefined, file: string) {
  const first = orders.find((order) => calendarDay(keys[0]!.date!, order) !== null);
  const spoilt = keys.find(({ date }) => orders.every((order) => calendarDay(date!, order) === null));
  if (spoilt) return badDate(spoilt, 'a date of the calendar', file);
  const order = wanted ?? first!;
  const bad = keys.find(({ date }) => calendarDay(date!, order) === null) ?? keys[0]!;
  const like = wanted ? ', as --time-form says,' : ' like the others';
  return badDate(bad, `a date that is ${order.replace('-', ' ')}${like}`, file);
}

function twoOrders(key: DateKey, open: readonly Open[], file: string) {
  const [first, ...others] = open.map(
    (one) => `${new Date(one.days[0]! * dayMs).toISOString().slice(0, 10)} (${one.order.replace('-', ' ')})`,
  );
  return problem(
    'log-two-readings',
    {
      what: `The date "${key.date}"`,
      first: first!,
      second: others.join(', or '),
      choices: open.map(({ order }, i) => ({
        words: [first!, ...others][i]!,
        options: { 'time-form': order },
      })),
    },
    { file, line: key.line },
    `Say which with ${open.map(({ order }) => `--time-form ${order}`).join(' or ')}.`,
  );
}
