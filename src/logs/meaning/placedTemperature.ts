import type { Readings } from '../Readings.js';
import { readingsOf } from '../readingsOf.js';
import type { Log } from '../types.js';
import { type ClockAlignment, timeInA } from './timeInA.js';

/** Another log that holds the temperature, and how its clock stands to that of the main log (as B to A). */
export interface OtherTemperature {
  readonly log: Log | Readings;
  readonly alignment?: ClockAlignment;
}

/** A temperature whose place in the time of the main log is known. */
export interface PlacedTemperature {
  readonly readings: Readings;
  readonly toOwn: (timeS: number) => number;
  readonly fromOwn: (timeS: number) => number;
}

/** The temperature that goes with a log: its own, or that of another log by alignment or clock; else why there is none. */
export function placedTemperature(
  own: Readings,
  other: OtherTemperature | undefined,
): PlacedTemperature | { readonly why: string } {
  if (!other) {
    if (!own.has.temperature) return { why: 'the log has no temperature' };
    return { readings: own, toOwn: (timeS) => timeS, fromOwn: (timeS) => timeS };
  }
  const readings = readingsOf(other.log);
  if (!readings.has.temperature) return { why: 'the other log has no temperature' };
  const shift = shiftOf(own, readings, other.alignment);
  if (!shift) return { why: 'nothing says how the clocks of the two logs stand to each other' };
  const { offsetS, rate } = shift;
  return {
    readings,
    toOwn: (timeS) => rate * timeS + offsetS,
    fromOwn: (timeS) => (timeS - offsetS) / rate,
  };
}

function shiftOf(own: Readings, other: Readings, alignment: ClockAlignment | undefined) {
  if (alignment) {
    const offsetS = timeInA(alignment, 0).timeS;
    return { offsetS, rate: 1 + 1e-6 * (alignment.driftPpm ?? 0) };
  }
  if (own.startUtcMs === null || other.startUtcMs === null) return null;
  return { offsetS: (other.startUtcMs - own.startUtcMs) / 1000, rate: 1 };
}
