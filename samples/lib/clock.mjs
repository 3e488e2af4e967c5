/**
 * Local time of the campaign as seconds since the midnight that begins its first day. Europe/Vienna is two hours ahead
 * of UTC until 25 October 2026; a campaign ends before.
 */
const FIRST_MIDNIGHT_MS = Date.UTC(2026, 9, 5);
const AHEAD_S = 7200;
export const LONGEST_CAMPAIGN_DAYS = 20;

const stamp = (seconds) => new Date(FIRST_MIDNIGHT_MS + Math.round(seconds * 1000)).toISOString();

/** 2026-10-05T07:10:00+02:00 @param {number} localS */
export const isoLocal = (localS) => `${stamp(localS).slice(0, 19)}+02:00`;

/** 2026-10-05T07:10:00.021+02:00 @param {number} localS */
export const isoLocalMillis = (localS) => `${stamp(localS).slice(0, 23)}+02:00`;

/** 2026-10-05T05:10:00Z @param {number} localS */
export const isoUtc = (localS) => `${stamp(localS - AHEAD_S).slice(0, 19)}Z`;

/** 05.10.2026 07:10:00, cut to the second. @param {number} localS */
export function dayFirst(localS) {
  const text = stamp(localS);
  return `${text.slice(8, 10)}.${text.slice(5, 7)}.${text.slice(0, 4)} ${text.slice(11, 19)}`;
}
