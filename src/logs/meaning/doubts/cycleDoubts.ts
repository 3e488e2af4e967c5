import { aliasing } from '../aliasing.js';
import { cycleStats, readsMeans } from '../cycleStats.js';
import { atWords, countWords, digits, wattWords, whWords } from '../words.js';
import type { WatchedLog } from './Watcher.js';

// Two or three readings are an example and no log.
const fewestRows = 4;

/** A heater that switches faster than the log can show, or is on for a reading or two only. */
export function cycleDoubts({ readings, edges }: WatchedLog): string[] {
  if (!edges) return [];
  if (edges.onBracketS[1] === edges.offBracketS[0] && readings.rows >= fewestRows)
    return [
      `The whole heating is one reading, of ${wattWords(edges.onW)} at ${atWords(edges.onBracketS[1])}: a heating too short for this log, or no heating at all.`,
    ];
  if (readsMeans(readings)) return [];
  const limits = { fromS: edges.onS, toS: edges.offS };
  const stats = cycleStats(readings, limits);
  const [first] = stats?.short.first ?? [];
  if (!stats || !first) return [];
  const found = aliasing(readings, limits);
  if (found.cyclesMayBeMissed)
    return [
      `The heater is on for ${digits(stats.onSamples.median())} and off for ${digits(stats.offSamples.median())} readings at a time: it switches too fast for this log, and whole cycles may be missing. That alone leaves a doubt of ${whWords(found.extraUJ, 2)} in the energy (standard uncertainty); a shorter interval or a counter would settle it.`,
    ];
  const what = first.on ? 'comes on' : 'drops out';
  const often = stats.short.count > 1 ? `, ${stats.short.count} times in all` : '';
  return [
    `Within the heating the power ${what} for only ${countWords(first.samples, 'reading')} at ${atWords(first.firstS)}${often}: a lost reading, or a switching too short for this log.`,
  ];
}
