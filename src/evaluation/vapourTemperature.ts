import type { Log } from '../logs/index.js';
import { saturationPressurePa } from '../water/index.js';

/** Relative humidity of the room where nobody measured it; it matters little against the steam of warm water. */
const ROOM_HUMIDITY = 0.5;
const DEFAULT_AMBIENT_K = 293.15;

/** A course of temperature: times in seconds, temperatures in kelvin. */
export interface Course {
  readonly timesS: readonly number[] | Float64Array;
  readonly temperaturesK: readonly number[] | Float64Array;
}

/**
 * The temperature at which the steam of a run left: mean of the temperature weighted by p_sat(T) − φ·p_sat(Ta), not
 * the mean over time. Between two points of the course the temperature runs straight. Kelvin; φ = 0.5, and a room of 20 °C
 * where `ambientK` is null. A course too cold for any steam gives its last temperature.
 *
 * @example
 * vapourTemperature({ timesS: [0, 1500], temperaturesK: [293.15, 333.15] }, 293.15) // => 320.69
 */
export function vapourTemperature(course: Course, ambientK: number | null): number {
  const room = ROOM_HUMIDITY * saturationPressurePa(ambientK ?? DEFAULT_AMBIENT_K);
  let weights = 0;
  let weighted = 0;
  for (let i = 1; i < course.timesS.length; i++) {
    const spanS = (course.timesS[i] as number) - (course.timesS[i - 1] as number);
    const from = course.temperaturesK[i - 1] as number;
    const to = course.temperaturesK[i] as number;
    if (!(spanS > 0) || Number.isNaN(from) || Number.isNaN(to)) continue;
    const parts = Math.max(1, Math.ceil(Math.abs(to - from)));
    for (let part = 0; part < parts; part++) {
      const temperature = from + ((to - from) * (part + 0.5)) / parts;
      const weight = Math.max(0, saturationPressurePa(temperature) - room) * (spanS / parts);
      weights += weight;
      weighted += weight * temperature;
    }
  }
  if (weights > 0) return weighted / weights;
  // Too cold for any steam: whatever left, left near the end.
  return course.temperaturesK[course.temperaturesK.length - 1] as number;
}

/** The part of a temperature log between two moments, or null where its clock isn't known. */
export function courseFrom(log: Log, fromMs: number, toMs: number): Course | null {
  if (log.startUtcMs === null || log.temperatureK === null) return null;
  const timesS: number[] = [];
  const temperaturesK: number[] = [];
  for (let i = 0; i < log.timesS.length; i++) {
    const at = log.startUtcMs + (log.timesS[i] as number) * 1000;
    const temperature = log.temperatureK[i] as number;
    if (at < fromMs || at > toMs || Number.isNaN(temperature)) continue;
    timesS.push(log.timesS[i] as number);
    temperaturesK.push(temperature);
  }
  return timesS.length >= 3 ? { timesS, temperaturesK } : null;
}
