import { drawConditions } from './conditions.mjs';
import { HEATER } from './heater.mjs';
import { heat } from './heating.mjs';
import { randomStream } from './random.mjs';
import { waterEnthalpy } from './water.mjs';

/**
 * The true heat balance of a heating, from the reading of T1 to the turning point:
 * input = water + vessel + vapour + room (load's loss) + body (kept) + body's loss; the last three are `restJ`.
 * @param {import('./heating.mjs').Heating} heating
 */
export function balance({ start, end }) {
  const rise = waterEnthalpy(end.loadC) - waterEnthalpy(start.loadC);
  const heatWaterJ = end.waterKg * rise;
  const vapourKg = start.waterKg - end.waterKg;
  const energyMeteredTrueJ = end.inputJ;
  const heatVesselJ = HEATER.potKg * HEATER.potHeatCapacity * HEATER.wettedShare * (end.loadC - start.loadC);
  const heatVapourJ = end.vapourJ - start.vapourJ - vapourKg * waterEnthalpy(start.loadC);
  return {
    efficiencyWater: heatWaterJ / energyMeteredTrueJ,
    energyMeteredTrueJ,
    heatWaterJ,
    heatVesselJ,
    heatVapourJ,
    heatRoomJ: end.loadLossJ - start.loadLossJ,
    heatBodyJ: HEATER.bodyHeatCapacity * (end.bodyC - start.bodyC),
    heatBodyLossJ: end.bodyLossJ - start.bodyLossJ,
    restJ: energyMeteredTrueJ - heatWaterJ - heatVesselJ - heatVapourJ,
    waterStartKg: start.waterKg,
    waterEndKg: end.waterKg,
    vapourKg,
    t1C: start.loadC,
    t2C: end.loadC,
  };
}

const PAIRS = 250;
const REFERENCE_SEED = 1;
const STEP_S = 10;
/** Middle of the times that the runs draw. */
const TIMES = { insertS: -190, readS: -30, afterS: 0 };
/** @type {Map<string, { efficiencyMean: number, scatterSd: number, meanStandardError: number }>} */
const known = new Map();

/**
 * What the efficiency of a setting is on average over everything that differs from run to run, and how it
 * scatters: 250 draws with their mirror images, from a seed of its own, so that it is the same for every
 * campaign. Worked out once in a process for each power and scatter.
 * @param {number} powerW
 * @param {number} scatter
 */
export function expectation(powerW, scatter) {
  const key = `${powerW} ${scatter}`;
  const before = known.get(key);
  if (before) return before;
  const run = (conditions) => balance(heat(conditions, powerW, TIMES, STEP_S)).efficiencyWater;
  let sum = 0;
  let squares = 0;
  let pairSquares = 0;
  const guess = run(drawConditions(() => 0, 0));
  for (let i = 0; i < PAIRS; i++) {
    const there = randomStream(REFERENCE_SEED, `expectation ${i}`);
    const mirror = randomStream(REFERENCE_SEED, `expectation ${i}`);
    const a = run(drawConditions(there.normal, scatter)) - guess;
    const b = run(drawConditions(() => -mirror.normal(), scatter)) - guess;
    sum += a + b;
    squares += a * a + b * b;
    pairSquares += ((a + b) / 2) ** 2;
  }
  const shift = sum / (2 * PAIRS);
  const result = {
    efficiencyMean: guess + shift,
    scatterSd: Math.sqrt(squares / (2 * PAIRS) - shift * shift),
    meanStandardError: Math.sqrt((pairSquares / PAIRS - shift * shift) / PAIRS),
  };
  known.set(key, result);
  return result;
}
