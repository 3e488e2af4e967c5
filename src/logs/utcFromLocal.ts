import { problem } from '../errors/index.js';
import { zoneOffsets } from './zoneOffsets.js';

/**
 * Local seconds (since 1970-01-01 on the clock of the zone) to UTC seconds, both counted from `baseS`. A repeated
 * hour is told apart by the order of the rows and reported; a log that begins within it can't be, and is an error,
 * as is a time that the clock never showed.
 */
export function utcFromLocal(
  localS: Float64Array,
  baseS: number,
  zone: string,
  lines: Float64Array,
  warnings: string[],
  file: string,
): Float64Array {
  const offsetsAt = zoneOffsets(zone);
  const utc = new Float64Array(localS.length);
  let before: number | null = null;
  let last: number | null = null;
  for (let i = 0; i < localS.length; i++) {
    const local = localS[i]!;
    const offsets = offsetsAt((baseS + local) * 1000);
    const place = { file, line: lines[i]! };
    const shown = new Date((baseS + local) * 1000).toISOString().slice(0, 19).replace('T', ' ');
    if (offsets.length === 0) throw problem('log-time-not-real', { got: shown, zone }, place);
    if (offsets.length > 1 && last === null) {
      throw problem(
        'log-time-twice',
        { got: shown, zone },
        place,
        'Give the offset instead, such as --zone +02:00.',
      );
    }
    const previous: number = last ?? Number.NEGATIVE_INFINITY;
    const choices = offsets.map((offset) => local - offset / 1000).sort((a, b) => a - b);
    utc[i] = choices.find((time) => time >= previous) ?? choices[choices.length - 1]!;
    const offset = Math.round(local - utc[i]!);
    if (before !== null && offset !== before) {
      const hours = (offset - before) / 3600;
      warnings.push(
        `The clock of ${zone} was moved by ${hours > 0 ? '+' : ''}${hours} h at line ${lines[i]}; durations are counted without the jump.`,
      );
    }
    before = offset;
    last = utc[i]!;
  }
  return utc;
}
