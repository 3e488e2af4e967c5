/**
 * A time of the records as a clock in its zone shows it: "2026-10-05 11:23:56". Text that is no time is shown as it is;
 * a zone that this machine does not know gives UTC, and says so.
 */
export function clockText(time: string | Date, zone: string): string {
  const date = time instanceof Date ? time : new Date(time);
  if (Number.isNaN(date.getTime())) return String(time);
  const known = knownZone(zone);
  if (known === null) return `${date.toISOString().slice(0, 19).replace('T', ' ')} UTC`;
  const parts = new Map(
    formatter(known)
      .formatToParts(date)
      .map(({ type, value }) => [type, value]),
  );
  const part = (type: Intl.DateTimeFormatPartTypes) => parts.get(type) ?? '';
  return `${part('year')}-${part('month')}-${part('day')} ${part('hour')}:${part('minute')}:${part('second')}`;
}

const formatters = new Map<string, Intl.DateTimeFormat>();

function formatter(zone: string): Intl.DateTimeFormat {
  let made = formatters.get(zone);
  if (!made) {
    made = new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      hourCycle: 'h23',
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
      second: '2-digit',
    });
    formatters.set(zone, made);
  }
  return made;
}

function knownZone(zone: string): string | null {
  try {
    formatter(zone);
    return zone;
  } catch {
    return null;
  }
}
