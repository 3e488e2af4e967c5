import { randomStream } from './random.mjs';
import { FILL_DENSITY, WEIGHT_DENSITY, airDensity } from './water.mjs';

/** What the invented certificate of `logger-1` says: correction = true value − indication. */
export const CERTIFICATE = Object.freeze({
  expandedUncertaintyK: 0.1,
  points: Object.freeze([
    { atC: 0, correctionK: 0.04 },
    { atC: 25, correctionK: 0.02 },
    { atC: 50, correctionK: -0.03 },
    { atC: 75, correctionK: -0.06 },
  ]),
});

export const ALTITUDE_M = 1150;
const METER_LIMIT = 0.01;
const SCALE_LIMIT_G = 2;
const IMMERSION_LIMIT_K = 0.05;

/**
 * The true errors of the three instruments, drawn from what their data sheets and certificates state. They stay
 * the same through a campaign.
 *
 * - meter: rectangular ±1 % of the reading; its voltmeter, which nothing rests on, ±0.5 %.
 * - logger: at each point of the certificate −correction plus a normal residual of half the expanded uncertainty
 *   (k = 2; so one in twenty is beyond it, as k = 2 says), 70 % of its variance common to all points, straight between them.
 * - heat led along the stem: rectangular ±0.05 K in hot water, none in cold.
 * - scale: rectangular ±2 g, one draw for the empty and one for the full vessel.
 * @param {number} seed
 */
export function drawInstruments(seed) {
  const random = randomStream(seed, 'instruments');
  const gainError = random.between(-METER_LIMIT, METER_LIMIT);
  const voltageError = random.between(-0.005, 0.005);
  const emptyErrorG = random.between(-SCALE_LIMIT_G, SCALE_LIMIT_G);
  const fullErrorG = random.between(-SCALE_LIMIT_G, SCALE_LIMIT_G);
  const immersionK = random.between(-IMMERSION_LIMIT_K, IMMERSION_LIMIT_K);
  const half = CERTIFICATE.expandedUncertaintyK / 2;
  const common = Math.sqrt(0.7) * random.normal();
  const points = CERTIFICATE.points.map(({ atC, correctionK }) => ({
    atC,
    errorK: -correctionK + half * (common + Math.sqrt(0.3) * random.normal()),
  }));
  return {
    meter: { gainError, voltageError },
    logger: { points, immersionK },
    scale: { emptyErrorG, fullErrorG },
  };
}

/** @typedef {ReturnType<typeof drawInstruments>} Instruments */

/**
 * Error of the logger at t °C: straight lines between the points of the certificate.
 * @param {Instruments['logger']} logger
 * @param {number} t
 */
export function loggerErrorK({ points }, t) {
  const upper = Math.max(
    1,
    points.findIndex((point, index) => point.atC >= t || index === points.length - 1),
  );
  const low = points[upper - 1];
  const high = points[upper];
  return low.errorK + ((high.errorK - low.errorK) * (t - low.atC)) / (high.atC - low.atC);
}

/**
 * What the scale shows, in whole grams, for a steel pot and water: weights and steel feel the same buoyancy, water
 * more.
 * @param {Instruments['scale']} scale
 * @param {number} potKg
 * @param {number} waterKg
 * @param {number} roomC
 */
export function scaleReadingG(scale, potKg, waterKg, roomC) {
  const air = airDensity(ALTITUDE_M, roomC);
  const buoyed = waterKg * ((1 - air / FILL_DENSITY) / (1 - air / WEIGHT_DENSITY));
  return Math.round((potKg + buoyed) * 1000 + (waterKg > 0 ? scale.fullErrorG : scale.emptyErrorG));
}
