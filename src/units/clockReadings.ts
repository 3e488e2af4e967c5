import { type Place, problem } from '../errors/index.js';

/** `m:ss`, `h:mm` or `h:mm:ss`; the later parts stay below 60 as on a clock. */
const CLOCK = /^(\d{1,6}):([0-5]\d)(?::([0-5]\d(?:[.,]\d+)?))?$/;

/**
 * Seconds that a clock form may mean: `h:mm:ss` is one; `12:31` is minutes and seconds or hours and minutes, the one
 * that fits the stated unit first. Errors: `clock-unreadable`.
 */
export function clockReadings(text: string, statedUnit: string, place: Place): number[] {
  const found = CLOCK.exec(text);
  if (!found) throw problem('clock-unreadable', { got: text }, place);
  const first = Number(found[1]);
  const second = Number(found[2]);
  if (found[3] !== undefined) return [first * 3600 + second * 60 + Number(found[3].replace(',', '.'))];
  const readings = [first * 60 + second, first * 3600 + second * 60];
  if (readings[0] === readings[1]) return [0];
  return statedUnit === 'h' || statedUnit === 'd' ? readings.reverse() : readings;
}
