import { HEATER } from './heater.mjs';
import { loggerErrorK, scaleReadingG } from './instruments.mjs';

const STIRRING_START_K = 0.1;
const STIRRING_END_K = 0.2;
const NOISE_K = 0.02;
/** The probe follows the water this much later. */
const PROBE_LAG_S = 6;

/**
 * When things happen on the bench, in whole seconds from switch-on, and what the probe and the hand do.
 * @param {import('./random.mjs').Random} random
 */
export function drawHandling(random) {
  const logStartS = -random.whole(75, 240);
  return {
    logStartS,
    insertS: logStartS - 30,
    readS: -random.whole(20, 40),
    energyBeforeS: logStartS - random.whole(60, 120),
    afterS: random.whole(120, 200),
    weighAfterS: random.whole(55, 85),
    energyAfterS: random.whole(95, 115),
    stirringStartK: random.between(-STIRRING_START_K, STIRRING_START_K),
    stirringEndK: random.between(-STIRRING_END_K, STIRRING_END_K),
    /** What the counter holds before the run, where it is not set to zero. */
    counterWh: random.between(500, 20000),
  };
}

/** @typedef {ReturnType<typeof drawHandling>} Handling */

/**
 * Straight lines through the course of a heating; quick where the times asked for grow.
 * @param {readonly number[]} times
 * @param {readonly number[]} values
 * @returns {(timeS: number) => number}
 */
export function along(times, values) {
  let i = 0;
  return (timeS) => {
    while (i > 0 && times[i] > timeS) i--;
    while (i < times.length - 2 && times[i + 1] < timeS) i++;
    return values[i] + ((values[i + 1] - values[i]) * (timeS - times[i])) / (times[i + 1] - times[i]);
  };
}

/**
 * The thermometer in the water: certificate error, imperfect stirring that goes over from its value at the start to its
 * value at the end, heat led along the stem, lag and noise. Returns °C, not yet rounded to the display.
 * @param {import('./heating.mjs').Heating} heating
 * @param {import('./instruments.mjs').Instruments['logger']} logger
 * @param {Handling} handling
 * @param {import('./random.mjs').Random} random
 */
export function createProbe(heating, logger, handling, random) {
  const { course, start, end } = heating;
  const loadC = along(course.timeS, course.loadC);
  const indicate = (t) => {
    const way = Math.max(0, Math.min(1, (t - start.loadC) / (end.loadC - start.loadC)));
    const local =
      handling.stirringStartK + (handling.stirringEndK + logger.immersionK - handling.stirringStartK) * way;
    return t + loggerErrorK(logger, t) + local + NOISE_K * random.normal();
  };
  return {
    /** In the log: behind the water. */
    logged: (timeS) => indicate(loadC(timeS - PROBE_LAG_S)),
    /** Read by the hand when it holds. */
    settled: (timeS) => indicate(loadC(timeS)),
    inRoom: (roomC) => roomC + loggerErrorK(logger, roomC) + NOISE_K * random.normal(),
  };
}

/**
 * The energy counter of the meter in Wh, not yet rounded: gain times all that passed since `energyBeforeS`, the
 * stand-by included, on top of what it held.
 * @param {import('./heating.mjs').Heating} heating
 * @param {import('./instruments.mjs').Instruments['meter']} meter
 * @param {Handling} handling
 * @param {boolean} zeroed
 */
export function createCounter(heating, meter, handling, zeroed) {
  const inputJ = along(heating.course.timeS, heating.course.inputJ);
  const offS = heating.off.timeS;
  const first = heating.course.timeS[0];
  return (timeS) => {
    const idleS = Math.min(timeS, 0) - handling.energyBeforeS + Math.max(0, timeS - offS);
    const passedJ = (timeS < first ? 0 : inputJ(timeS)) + HEATER.standbyW * idleS;
    return (zeroed ? 0 : handling.counterWh) + ((1 + meter.gainError) * passedJ) / 3600;
  };
}

/**
 * The readings of a run as the displays show them: whole grams, tenths of a degree, whole watt-hours.
 * @param {import('./heating.mjs').Heating} heating
 * @param {import('./instruments.mjs').Instruments} instruments
 * @param {Handling} handling
 * @param {ReturnType<typeof createProbe>} probe
 * @param {(timeS: number) => number} counterWh
 * @param {import('./conditions.mjs').Conditions} conditions
 */
export function readBench(heating, instruments, handling, probe, counterWh, conditions) {
  const { course, off, end } = heating;
  const { scale } = instruments;
  const { roomC, waterKg } = conditions;
  const waterAt = along(course.timeS, course.waterKg);
  const weighS = end.timeS + handling.weighAfterS;
  const energyAfterS = end.timeS + handling.energyAfterS;
  return {
    roomC: probe.inRoom(roomC),
    emptyG: scaleReadingG(scale, HEATER.potKg, 0, roomC),
    fullG: scaleReadingG(scale, HEATER.potKg, waterKg, roomC),
    finalG: scaleReadingG(scale, HEATER.potKg, waterAt(weighS), roomC),
    energyBeforeWh: Math.round(counterWh(handling.energyBeforeS)),
    energyAfterWh: Math.round(counterWh(energyAfterS)),
    startC: probe.settled(handling.readS),
    interim: [0.3, 0.55, 0.8].map((share) => {
      const timeS = Math.round(share * off.timeS);
      return { timeS, temperatureC: probe.logged(timeS) };
    }),
    endC: probe.settled(end.timeS),
    weighS,
    energyAfterS,
  };
}
