import { LocalClock } from './LocalClock.js';

/** Local seconds (since 1970-01-01 on the clock of the zone) to UTC seconds, both counted from `baseS`. */
export function utcFromLocal(
  localS: Float64Array,
  baseS: number,
  zone: string,
  lines: Float64Array,
  warnings: string[],
  file: string,
): Float64Array {
  const clock = new LocalClock(zone, baseS, file, warnings);
  const utc = new Float64Array(localS.length);
  clock.toUtc(localS, 0, { from: 0, to: localS.length, lineOf: (row) => lines[row]! }, utc);
  return utc;
}
