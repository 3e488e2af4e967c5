/** A date, a clock time or both, as a cell shows them; nothing is decided yet about the order of day and month. */
export interface ClockCell {
  /** The date as written, such as `03/04/2026`; `null` where the cell has a time only. */
  readonly date: string | null;
  /** Seconds since midnight (or since the start); `null` where the cell has a date only. */
  readonly seconds: number | null;
  /** Numbers in the time: 2 for `10:15`, 3 for `10:15:00`. */
  readonly parts: 0 | 2 | 3;
  /** `Z`, `+01:00` or `null`. */
  readonly offset: string | null;
}

const full =
  /^(?:(\d{1,4}([-/.])\d{1,2}\2\d{1,4})(?:,?\s+|T|t|$))?(?:(\d{1,4}):(\d{2})(?::(\d{2}))?(?:[.,:](\d{1,9}))?\s*([AaPp]\.?[Mm]\.?)?\s*(Z|z|UTC|GMT|[+-]\d{2}(?::?\d{2})?)?)?$/;
const basic =
  /^(\d{4})(\d{2})(\d{2})T(\d{2})(\d{2})(?:(\d{2})(?:[.,](\d{1,9}))?)?(Z|[+-]\d{2}(?::?\d{2})?)?$/;

/** Reads a date, a clock time, or both; `undefined` where the cell is neither. */
export function clockCell(cell: string): ClockCell | undefined {
  const text = cell.trim();
  const match = full.exec(text);
  if (!match) return basicForm(text);
  const [, date, , hour, minute, second, part, half, offset] = match;
  if (hour === undefined) return date ? { date, seconds: null, parts: 0, offset: null } : undefined;
  const hours = half ? twelveHour(Number(hour), half) : Number(hour);
  const seconds = clockSeconds(hours, minute!, second, part);
  if (seconds === undefined || (date && hours > 24)) return undefined;
  return { date: date ?? null, seconds, parts: second === undefined ? 2 : 3, offset: plainOffset(offset) };
}

function basicForm(text: string): ClockCell | undefined {
  const match = basic.exec(text);
  if (!match) return undefined;
  const [, year, month, day, hour, minute, second, part, offset] = match;
  const seconds = clockSeconds(Number(hour), minute!, second ?? '00', part);
  if (seconds === undefined || Number(hour) > 24) return undefined;
  return { date: `${year}-${month}-${day}`, seconds, parts: 3, offset: plainOffset(offset) };
}

// `12:34.5` is minutes and seconds, but only the caller can know: two parts are counted as hours and minutes.
function clockSeconds(hours: number, minute: string, second = '0', part = ''): number | undefined {
  if (!(hours >= 0) || Number(minute) > 59 || Number(second) > 60) return undefined;
  // One division at the end keeps 10:00:00.1 the nearest number to 36000.1.
  const scale = 10 ** part.length;
  return ((hours * 3600 + Number(minute) * 60 + Number(second)) * scale + Number(part || '0')) / scale;
}

function twelveHour(hour: number, half: string): number {
  if (hour < 1 || hour > 12) return Number.NaN;
  return (hour % 12) + (/^p/i.test(half) ? 12 : 0);
}

function plainOffset(offset: string | undefined): string | null {
  if (offset === undefined) return null;
  if (/^(z|utc|gmt)$/i.test(offset)) return 'Z';
  const digits = offset.slice(1).replace(':', '').padEnd(4, '0');
  return `${offset[0]}${digits.slice(0, 2)}:${digits.slice(2)}`;
}
