import { latentHeat, saturationPressurePa } from '../../water/index.js';
import type { Course } from '../vapourTemperature.js';

/** Relative humidity of the room where nobody measured it; it matters little against the steam of warm water. */
const ROOM_HUMIDITY = 0.5;

/**
 * Power that vapour takes from a load at a temperature, W for each kg that left over a course of temperature: h_fg times
 * (p_sat(T) − φ·p_sat(Ta))/∫(p_sat(T) − φ·p_sat(Ta)) dt. Zero where the course is too cold for vapour.
 */
export function vapourCooling(course: Course, ambientK: number): (temperatureK: number) => number {
  const room = ROOM_HUMIDITY * saturationPressurePa(ambientK);
  const excess = (kelvin: number) => Math.max(0, saturationPressurePa(kelvin) - room);
  let sum = 0;
  for (let i = 1; i < course.timesS.length; i += 1) {
    const span = course.timesS[i]! - course.timesS[i - 1]!;
    const middle = (course.temperaturesK[i]! + course.temperaturesK[i - 1]!) / 2;
    if (span > 0) sum += span * excess(middle);
  }
  return (kelvin) => (sum > 0 ? (latentHeat(kelvin) * excess(kelvin)) / sum : 0);
}
