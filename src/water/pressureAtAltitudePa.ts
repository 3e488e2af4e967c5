import { problem } from '../errors/index.js';

// Constants of the standard atmosphere. Source: ISO 2533:1975, section 2.
const SEA_LEVEL_PA = 101_325;
const SEA_LEVEL_K = 288.15;
const LAPSE_K_PER_M = 0.0065;
const GRAVITY = 9.80665; // m/s²
const AIR_GAS_CONSTANT = 287.05287; // J/(kg K)
const EARTH_RADIUS_M = 6_356_766; // nominal, for the geopotential altitude

const LOWEST_M = -2000;
const HIGHEST_M = 11_000; // the lowest layer of the standard ends at a geopotential altitude of 11 km

/**
 * Air pressure of the standard atmosphere at an altitude above sea level, Pa: ISO 2533:1975, lowest layer,
 * `p = 101325 (1 − 0.0065 H / 288.15)^(g/(R·0.0065))`, where `H = r z/(r + z)` is the geopotential altitude of the
 * geometric one z that a map shows. From −2000 to 11 000 m. The weather moves the real pressure about it by some
 * ± 30 hPa (common practice, no source), about ± 0.9 K of boiling point: a barometer is better.
 * Errors: `altitude-range`.
 *
 * @example
 * pressureAtAltitudePa(1500) // => 84559.67
 */
export function pressureAtAltitudePa(altitudeM: number): number {
  if (!(altitudeM >= LOWEST_M && altitudeM <= HIGHEST_M)) {
    throw problem('altitude-range', { got: String(altitudeM), lowest: LOWEST_M, highest: HIGHEST_M });
  }
  const geopotentialM = (EARTH_RADIUS_M * altitudeM) / (EARTH_RADIUS_M + altitudeM);
  const exponent = GRAVITY / (AIR_GAS_CONSTANT * LAPSE_K_PER_M);
  return SEA_LEVEL_PA * (1 - (LAPSE_K_PER_M * geopotentialM) / SEA_LEVEL_K) ** exponent;
}
