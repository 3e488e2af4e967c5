/** The zone that a header states: `Time (UTC+02:00)`, `GMT`; `null` where it states none. */
export function headerZone(header: string): string | null {
  const match = /\b(?:UTC|GMT)\b\s*(?:([+\u2212-])(\d{1,2})(?::?(\d{2}))?)?/.exec(header);
  if (!match) return null;
  const [, sign, hours, minutes = '00'] = match;
  return sign ? `${sign.replace('\u2212', '-')}${hours!.padStart(2, '0')}:${minutes}` : 'UTC';
}
