import { problem } from '../errors/index.js';
import { headerZone } from './headerZone.js';
import { shownText } from './shownText.js';
import type { DateKey } from './TimeRows.js';
import type { TimeSource } from './TimeSource.js';
import type { ReadOptions } from './types.js';

/**
 * The zone of clock times: what each row says, else what the header of the time column says, else what is stated.
 * The file's own word wins, with a remark where another zone was stated.
 */
export function zoneOf(
  keys: readonly DateKey[],
  source: TimeSource,
  options: ReadOptions,
  warnings: string[],
  file: string,
  line: number,
): string {
  const offsets = [...new Set(keys.map((key) => key.offset))];
  const ofHeader = offsets[0] === null ? headerZone(source.header) : null;
  const own = offsets[0] ?? ofHeader;
  if (own !== null && own !== undefined) {
    const same = offsets.length === 1 && options.zone === (own === 'Z' ? 'UTC' : own);
    if (options.zone !== undefined && !same)
      warnings.push(`The file states its own zone (${own}); --zone ${options.zone} was not needed.`);
    return offsets.length > 1 ? 'as stated in each row' : own === 'Z' ? 'UTC' : own;
  }
  if (options.zone !== undefined) return options.zone;
  throw problem(
    'log-zone-missing',
    { got: `${keys[0]?.date}`, header: shownText(source.header) },
    { file, line },
    'State it with --zone, such as --zone Europe/Vienna or --zone UTC.',
  );
}
