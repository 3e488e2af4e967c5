import { namedDate } from './namedDate.js';

/** A date, a clock time or both, as a cell shows them; nothing is decided yet about the order of day and month. */
export interface ClockCell {
  /**
   * The date: as written (`03/04/2026`), the basic forms of ISO 8601 with their hyphens put in (`2026-10-05`, `2026-278`,
   * `2026-W41-1`), a named month in English (`5 Oct 2026`); `null` where the cell has a time only.
   */
  readonly date: string | null;
  /** Seconds since midnight (or since the start); `null` where the cell has a date only. */
  readonly seconds: number | null;
  /** Numbers in the time: 2 for `10:15`, 3 for `10:15:00`. */
  readonly parts: 0 | 2 | 3;
  /** `Z`, `+01:00` or `null`. */
  readonly offset: string | null;
}

const zone = String.raw`(Z|z|(?:UTC|GMT)?[+\u2212-]\d{2}(?::?\d{2})?|UTC|GMT)?`;
const time = String.raw`(\d{1,4}):(\d{2})(?::(\d{2}))?(?:[.,:](\d{1,9}))?\s*([AaPp]\.?\s?[Mm]\.?)?\s*${zone}`;
const full = new RegExp(
  String.raw`^(?:(\d{1,4}([-/.])\d{1,2}\2\d{1,4}|\d{4}-\d{3}|\d{4}-[Ww]\d{2}-\d)(?:(,?\s+|T|t)|$))?(?:${time})?$`,
);
const basic = new RegExp(
  String.raw`^(\d{4})(?:(\d{2})(\d{2})|(\d{3})|[Ww](\d{2})(\d))(?:([Tt ])(?:(\d{2})(\d{2})(?:(\d{2}))?(?:[.,](\d{1,9}))?${zone}|(\d{2}:.*)))?$`,
);
const behindName = /^(?:[Tt:]|,?\s+(?:(?:at|um|à|a las|alle|om|kl\.?)\s+)?)(\d.*)$/;

/** Reads a date, a clock time, or both; `undefined` where the cell is neither. */
export function clockCell(cell: string): ClockCell | undefined {
  const text = cell.trim();
  const match = full.exec(text);
  if (!match) return basicForm(text) ?? namedForm(text);
  const [, date, , between, hour, minute, second, part, half, offset] = match;
  if (hour === undefined) return date && !between ? dateOnly(date) : undefined;
  const hours = half ? twelveHour(Number(hour), half) : Number(hour);
  // By ISO 8601 "T10:15,5" is half past a minute; without the T nobody can say what it is.
  const ofMinute = second === undefined && part !== undefined && date !== undefined;
  if (ofMinute && !/^t$/i.test(between!)) return undefined;
  const seconds = ofMinute
    ? clockSeconds(hours, minute!, '0', '', `0.${part}`)
    : clockSeconds(hours, minute!, second, part);
  const plain = plainOffset(offset);
  if (seconds === undefined || plain === undefined || (date && seconds > 86400)) return undefined;
  if (date && hours === 24 && seconds !== 86400) return undefined;
  return { date: date?.toUpperCase() ?? null, seconds, parts: second === undefined ? 2 : 3, offset: plain };
}

function dateOnly(date: string): ClockCell {
  return { date: date.toUpperCase(), seconds: null, parts: 0, offset: null };
}

function basicForm(text: string): ClockCell | undefined {
  const match = basic.exec(text);
  if (!match) return undefined;
  const [
    ,
    year,
    month,
    day,
    dayOfYear,
    week,
    weekday,
    between,
    hour,
    minute,
    second,
    part,
    offset,
    extended,
  ] = match;
  const date = month
    ? `${year}-${month}-${day}`
    : dayOfYear
      ? `${year}-${dayOfYear}`
      : `${year}-W${week}-${weekday}`;
  // Seven digits alone may be a date with its day or month cut short as well.
  if (between === undefined) return dayOfYear ? undefined : dateOnly(date);
  if (extended !== undefined) return withTime(date, extended);
  const seconds =
    second === undefined
      ? clockSeconds(Number(hour), minute!, '0', '', part && `0.${part}`)
      : clockSeconds(Number(hour), minute!, second, part);
  const plain = plainOffset(offset);
  if (seconds === undefined || plain === undefined || seconds > 86400) return undefined;
  if (Number(hour) === 24 && seconds !== 86400) return undefined;
  return { date, seconds, parts: 3, offset: plain };
}

function namedForm(text: string): ClockCell | undefined {
  if (text.length > 60 || !/\p{L}{3}/u.test(text)) return undefined;
  const named = namedDate(text);
  if (!named) return undefined;
  if (named.rest.trim() === '') return { date: named.date, seconds: null, parts: 0, offset: null };
  const behind = behindName.exec(named.rest);
  return behind ? withTime(named.date, behind[1]!) : undefined;
}

function withTime(date: string, text: string): ClockCell | undefined {
  const clock = clockCell(text);
  if (!clock || clock.date !== null || clock.seconds === null || clock.seconds > 86400) return undefined;
  // A fraction behind the minutes: see above.
  if (clock.parts === 2 && clock.seconds % 60 !== 0) return undefined;
  return { ...clock, date };
}

// `12:34.5` is minutes and seconds, but only the caller can know: two parts are counted as hours and minutes.
function clockSeconds(
  hours: number,
  minute: string,
  second = '0',
  part = '',
  minuteFraction = '0',
): number | undefined {
  if (!(hours >= 0) || Number(minute) > 59 || Number(second) > 60) return undefined;
  // One division at the end keeps 10:00:00.1 the nearest number to 36000.1.
  const scale = 10 ** part.length;
  const whole = hours * 3600 + Number(minute) * 60 + Number(second) + 60 * Number(minuteFraction);
  return (whole * scale + Number(part || '0')) / scale;
}

function twelveHour(hour: number, half: string): number {
  if (hour < 1 || hour > 12) return Number.NaN;
  return (hour % 12) + (/^p/i.test(half) ? 12 : 0);
}

/** `undefined` where no place on Earth has such an offset. */
function plainOffset(offset: string | undefined): string | null | undefined {
  if (offset === undefined) return null;
  if (/^(z|utc|gmt)$/i.test(offset)) return 'Z';
  const bare = offset.replace(/^(UTC|GMT)/, '').replace('\u2212', '-');
  const digits = bare.slice(1).replace(':', '').padEnd(4, '0');
  const [hours, minutes] = [Number(digits.slice(0, 2)), Number(digits.slice(2))];
  if (minutes > 59 || hours * 60 + minutes > 14 * 60) return undefined;
  return `${bare[0]}${digits.slice(0, 2)}:${digits.slice(2)}`;
}
