/**
 * Spreadsheets count days, with the time of day as a fraction: from 1899-12-30, so that 1900-03-01 and all later days
 * come out right although the sheet believes in a 29 February 1900 (the 1900 date system, from memory).
 */
const epochDay = 25_569;
const daySeconds = 86_400;

/** 1990-01-01 to 2099-12-31: the years in which a number of days is taken for a date without being told. */
export const likelySerial = { from: 32_874, to: 73_051 };

/** 1970-01-01 to 2199-12-31: the years in which a number of days is a date at all. */
export const possibleSerial = { from: epochDay, to: 109_575 };

/** Days since 1970-01-01 of the day in which a serial number falls. */
export function serialDay(serial: number): number {
  return Math.floor(serial) - epochDay;
}

/**
 * The finest time that so many decimals of a day can show, and the step to which they are rounded: the next power of
 * ten above it in seconds, which brings back a time that stood on such a step. It is a second at most, since coarser
 * steps would move half days, and 10 µs at least, since nothing finer is left of a double.
 *
 * Units: seconds.
 *
 * @example
 * serialStep(6).stepS // => 0.1
 */
export function serialStep(decimals: number): { readonly finestS: number; readonly stepS: number } {
  const finestS = daySeconds / 10 ** decimals;
  return { finestS, stepS: 1 / 10 ** Math.max(0, Math.min(5, Math.floor(1e-9 - Math.log10(finestS)))) };
}

/** Seconds from the beginning of the day `day` (of `serialDay`), rounded to `stepS`. */
export function serialSeconds(serial: number, day: number, stepS: number): number {
  const seconds = (serial - (day + epochDay)) * daySeconds;
  // Dividing by a whole number keeps 0.3 s out of three steps of 0.1 s.
  return Math.round(seconds / stepS) / Math.round(1 / stepS);
}
