import { along, createProbe, drawHandling } from './bench.mjs';
import { isoLocal, isoLocalMillis, isoUtc } from './clock.mjs';
import {
  bodyOf,
  boilCourse,
  columns,
  conditionsOf,
  coolDownCourse,
  holdCourse,
  kappaOf,
  lossOf,
} from './curveCourses.mjs';
import { SAMPLE_SEED } from './files.mjs';
import { HEATER, SETTINGS } from './heater.mjs';
import { heat } from './heating.mjs';
import { ALTITUDE_M, drawInstruments, loggerErrorK, scaleReadingG } from './instruments.mjs';
import { randomStream } from './random.mjs';
import { latentHeat, waterHeatCapacity } from './water.mjs';

/** Chosen once, before any result was seen; it stays. The instruments are those of the campaign. */
export const CURVES_SEED = 20261012;

/** Boiling point at the altitude of the dairy: 882.5 hPa by the standard atmosphere, 96.20 °C by IAPWS-IF97. */
const BOILING_C = 96.2;
const POT = HEATER.potKg * HEATER.potHeatCapacity * HEATER.wettedShare;
const DAY_S = 86400;
const LOG_EVERY_S = 10;
const NOISE_K = 0.02;

const c = (t) => `${t.toFixed(1)} °C`;
const g = (grams) => `${grams} g`;
const kWh = (wh) => `${(wh / 1000).toFixed(3)} kWh`;

/**
 * Everything that was measured beside the campaign: two cool-downs, a hold, two boil-offs and four heatings at two
 * fills, with what was true. Writes nothing.
 * @param {number} [seed]
 * @param {number} [instrumentSeed] of the instruments' true errors
 */
export function simulateCurves(seed = CURVES_SEED, instrumentSeed = SAMPLE_SEED) {
  const instruments = drawInstruments(instrumentSeed);
  const bench = (id, day, hour) => ({
    id,
    onS: day * DAY_S + hour * 3600,
    instruments,
    stream: (what) => randomStream(seed, `${id} ${what}`),
  });
  const runs = [
    coolDown(bench('vat-warmer-full-cooling-closed', 7, 10), false),
    coolDown(bench('vat-warmer-full-cooling-open', 7, 15), true),
    hold(bench('vat-warmer-gentle-hold', 8, 10)),
    boilOff(bench('vat-warmer-full-boil-01', 9, 9)),
    boilOff(bench('vat-warmer-full-boil-02', 9, 14)),
    ...['third', 'full', 'third', 'full'].map((fill, i) =>
      fillRun(bench(`vat-warmer-full-${fill}-0${1 + (i >> 1)}`, 10 + (i >> 1), i % 2 ? 14 : 9), fill),
    ),
  ];
  return { seed, runs };
}

/** What the probe shows in the room. */
const roomShown = ({ instruments, stream }, roomC, what) =>
  roomC + loggerErrorK(instruments.logger, roomC) + NOISE_K * stream(`room ${what}`).normal();

function probeOf(bench, rows, coolC, hotC, what) {
  const { instruments, stream } = bench;
  const heating = { course: columns(rows), start: { loadC: coolC }, end: { loadC: hotC } };
  const handling = drawHandling(stream('handling'));
  return createProbe(heating, instruments.logger, handling, stream(what));
}

/** The logger's export over a stretch of time, every ten seconds. */
function temperatureCsv(bench, probe, fromS, toS) {
  const lines = ['time,temperature_C\n'];
  for (let timeS = fromS; timeS <= toS; timeS += LOG_EVERY_S)
    lines.push(`${isoUtc(bench.onS + timeS)},${probe.logged(timeS).toFixed(1)}\n`);
  return lines.join('');
}

/** The meter's export at the given times. */
function powerCsv(bench, times, powerW) {
  const gain = 1 + bench.instruments.meter.gainError;
  const line = (timeS) => `${isoLocalMillis(bench.onS + timeS)},${(gain * powerW(timeS)).toFixed(1)}\n`;
  return `time,power_W\n${times.map(line).join('')}`;
}

const steps = (fromS, toS, everyS) =>
  Array.from({ length: Math.floor((toS - fromS) / everyS) + 1 }, (_, i) => fromS + i * everyS);

const answerAt = (bench) => (step, value, timeS) => ({ step, value, at: isoLocal(bench.onS + timeS) });

const weigh = ({ instruments }, waterKg, roomC) =>
  g(scaleReadingG(instruments.scale, HEATER.potKg, waterKg, roomC));

function runOf(bench, protocol, setting, answers, files, truth) {
  return { id: bench.id, protocol, setting, heater: HEATER.id, answers, files, truth };
}

function coolDown(bench, open) {
  const conditions = conditionsOf(bench.stream('conditions').normal, {});
  const lengthS = open ? 3600 : 5400;
  const beforeS = 90;
  const rows = coolDownCourse(conditions, { startC: 60, open, beforeS, lengthS: lengthS + 120 });
  const loadC = along(columns(rows).timeS, columns(rows).loadC);
  const water = along(columns(rows).timeS, columns(rows).waterKg);
  const [hot, cool] = [loadC(0), loadC(lengthS)];
  const probe = probeOf(bench, rows, cool, hot, 'logging');
  const { roomC } = conditions;
  const answer = answerAt(bench);
  const log = `${bench.id}-temperature.csv`;
  const answers = [
    answer('cautions', 'yes', -600),
    answer('settled', 'yes', -580),
    answer('draughtFree', 'yes', -560),
    answer('lid', open ? 'off' : 'on', -540),
    answer('ambientTemperature', c(roomShown(bench, roomC, 'before')), -500),
    answer('emptyWeight', weigh(bench, 0, roomC), -300),
    answer('fullWeight', weigh(bench, water(-60), roomC), -60),
    answer('startLog', '', -30),
    answer('coolFrom', '', 0),
    answer('interimTemperature', '', 10),
    answer('coolTo', '', lengthS),
    answer('finalWeight', weigh(bench, water(lengthS + 60), roomC), lengthS + 60),
    answer('ambientTemperatureAfter', c(roomShown(bench, roomC, 'after')), lengthS + 120),
    answer('temperatureLog', `../exports/${log}`, lengthS + 300),
    answer('remarks', '', lengthS + 310),
  ];
  const meanKg = (water(0) + water(lengthS)) / 2;
  const capacity = meanKg * waterHeatCapacity((hot + cool) / 2) + POT + bodyOf(conditions);
  const truth = {
    uaWPerK: lossOf(conditions),
    timeConstantS: capacity / lossOf(conditions),
    heatCapacityJPerK: capacity,
    steamKg: water(0) - water(lengthS),
    roomC,
  };
  const files = { [log]: temperatureCsv(bench, probe, -30, lengthS + 60) };
  return runOf(bench, 'cool-down', 'full', answers, files, truth);
}

function hold(bench) {
  const conditions = conditionsOf(bench.stream('conditions').normal, {});
  const lengthS = 5400;
  const heldC = 65;
  const powerW = SETTINGS[0].powerW;
  const rows = holdCourse(conditions, { heldC, powerW, lengthS: lengthS + 120 });
  const course = columns(rows);
  const at = (values) => along(course.timeS, values);
  const probe = probeOf(bench, rows, conditions.roomC, heldC, 'logging');
  const typing = probeOf(bench, rows, conditions.roomC, heldC, 'typing');
  const power = (timeS) => rows[Math.max(0, Math.min(rows.length - 1, Math.round(timeS) + 1800))].powerW;
  const counter = energyOf(bench, rows);
  const { roomC } = conditions;
  const answer = answerAt(bench);
  const names = [`${bench.id}-power.csv`, `${bench.id}-temperature.csv`];
  const answers = [
    answer('cautions', 'yes', -5000),
    answer('draughtFree', 'yes', -4980),
    answer('lid', 'on', -4960),
    answer('emptyWeight', weigh(bench, 0, roomC), -4900),
    answer('fullWeight', weigh(bench, conditions.waterKg, roomC), -4800),
    answer('steady', 'yes', -120),
    answer('ambientTemperature', c(roomShown(bench, roomC, 'before')), -100),
    answer('startLog', '', -60),
    answer('startTemperature', c(typing.settled(-30)), -30),
    answer('energyBefore', kWh(counter(0)), 0),
    answer('holdFrom', '', 0),
    answer('interimTemperature', c(typing.settled(1800)), 1800),
    answer('interimTemperature', c(typing.settled(3600)), 3600),
    answer('interimTemperature', '', 3610),
    answer('holdTo', '', lengthS),
    answer('energyAfter', kWh(counter(lengthS)), lengthS),
    answer('endTemperature', c(typing.settled(lengthS + 20)), lengthS + 20),
    answer('ambientTemperatureAfter', c(roomShown(bench, roomC, 'after')), lengthS + 60),
    answer('meterLog', `../exports/${names[0]}`, lengthS + 200),
    answer('temperatureLog', `../exports/${names[1]}`, lengthS + 220),
    answer('remarks', '', lengthS + 240),
  ];
  const load = at(course.loadC);
  const used = steps(0, lengthS, 1);
  const excessK = used.reduce((sum, t) => sum + load(t) - roomC, 0) / used.length;
  const drift =
    (conditions.waterKg * waterHeatCapacity(heldC) + POT + bodyOf(conditions)) * (load(lengthS) - load(0));
  const inputJ = used.reduce((sum, t) => sum + power(t), 0);
  const truth = {
    lossPerKelvinWPerK: (inputJ - drift / kappaOf(conditions)) / lengthS / excessK,
    excessK,
    roomC,
  };
  const files = {
    [names[0]]: powerCsv(bench, steps(-50, lengthS + 60, LOG_EVERY_S), power),
    [names[1]]: temperatureCsv(bench, probe, -50, lengthS + 60),
  };
  return runOf(bench, 'hold', 'gentle', answers, files, truth);
}

/** The counter in Wh over a course whose rows carry a power, from what it held before. */
function energyOf(bench, rows) {
  const held = bench.stream('counter').between(500, 20000);
  let sum = 0;
  const sums = rows.map((row) => (sum += row.powerW));
  const gain = 1 + bench.instruments.meter.gainError;
  return (timeS) => held + (gain * sums[Math.round(timeS) - rows[0].timeS]) / 3600;
}

function boilOff(bench) {
  const conditions = conditionsOf(bench.stream('conditions').normal, { waterKg: 5.2 });
  const powerW = SETTINGS[2].powerW;
  const [onS, offS] = [90, 90 + 1800];
  const rows = boilCourse(conditions, { boilingC: BOILING_C, powerW, onS, offS, lastS: offS + 200 });
  const course = columns(rows);
  const water = along(course.timeS, course.waterKg);
  const row = (timeS) => rows[Math.round(timeS)];
  const gain = 1 + bench.instruments.meter.gainError;
  const held = bench.stream('counter').between(500, 20000);
  const counter = (timeS) =>
    held + (gain * (row(timeS).inputJ + HEATER.standbyW * Math.max(0, timeS - (offS - onS)))) / 3600;
  const power = (timeS) => {
    if (timeS < onS || timeS >= offS) return HEATER.standbyW;
    return powerW * (conditions.voltage(timeS) / HEATER.nominalVoltage) ** 2;
  };
  const { roomC } = conditions;
  const answer = answerAt(bench);
  const log = `${bench.id}-power.csv`;
  const [first, second] = [40, offS + 40];
  const answers = [
    answer('cautions', 'yes', -500),
    answer('draughtFree', 'yes', -480),
    answer('boiling', 'yes', -100),
    answer('ambientTemperature', c(roomShown(bench, roomC, 'before')), -90),
    answer('pressure', '', -85),
    answer('startLog', '', 10),
    answer('fullWeight', weigh(bench, water(first), roomC), first),
    answer('energyBefore', kWh(counter(onS - 20)), onS - 20),
    answer('switchOn', '', onS),
    answer('switchOff', '', offS),
    answer('finalWeight', weigh(bench, water(second), roomC), second),
    answer('energyAfter', kWh(counter(second + 30)), second + 30),
    answer('meterLog', `../exports/${log}`, second + 200),
    answer('remarks', '', second + 210),
  ];
  const steamKg = water(first) - water(second);
  const energyJ = row(offS + 1).inputJ;
  const truth = {
    boilOffEfficiency: (steamKg * latentHeat(BOILING_C)) / energyJ,
    reachedLoad: (steamKg * latentHeat(BOILING_C) + row(second).roomJ - row(first).roomJ) / energyJ,
    kappa: kappaOf(conditions),
    steamKg,
    energyJ,
    altitudeM: ALTITUDE_M,
    roomC,
  };
  const times = [...steps(10, onS - 6, 10), ...steps(onS - 5, onS + 6, 1), ...steps(onS + 10, offS - 6, 10)];
  const all = [...times, ...steps(offS - 5, offS + 6, 1), ...steps(offS + 10, offS + 120, 10)];
  const files = { [log]: powerCsv(bench, all, power) };
  return runOf(bench, 'boil-off', 'full', answers, files, truth);
}

function fillRun(bench, fill) {
  const waterKg = (fill === 'third' ? 2 : 6) + 0.01 * bench.stream('fill').normal();
  const conditions = conditionsOf(bench.stream('conditions').normal, { waterKg });
  const handling = drawHandling(bench.stream('handling'));
  const heating = heat(conditions, SETTINGS[2].powerW, { ...handling, afterS: 2100 }, 1);
  const { course, off, end, start } = heating;
  const water = along(course.timeS, course.waterKg);
  const probe = (what) => createProbe(heating, bench.instruments.logger, handling, bench.stream(what));
  const [typing, logging] = [probe('typing'), probe('logging')];
  const { roomC } = conditions;
  const counter = counterOf(bench, heating, handling.energyBeforeS);
  const answer = answerAt(bench);
  const weighS = end.timeS + handling.weighAfterS;
  const waitS = off.timeS + 1860;
  const names = [`${bench.id}-power.csv`, `${bench.id}-temperature.csv`];
  const before = handling.energyBeforeS;
  const answers = [
    answer('cautions', 'yes', before - 620),
    answer('atRest', 'yes', before - 600),
    answer('draughtFree', 'yes', before - 580),
    answer('fill', fill, before - 560),
    answer('lid', 'on', before - 540),
    answer('ambientTemperature', c(roomShown(bench, roomC, 'before')), before - 510),
    answer('pressure', '', before - 500),
    answer('emptyWeight', weigh(bench, 0, roomC), before - 400),
    answer('fullWeight', weigh(bench, waterKg, roomC), before - 200),
    answer('energyBefore', kWh(counter(before)), before),
    answer('startLog', '', handling.logStartS),
    answer('startTemperature', c(typing.settled(handling.readS)), handling.readS),
    answer('switchOn', '', 0),
    answer('interimTemperature', '', 20),
    answer('switchOff', '', off.timeS),
    answer('endTemperature', c(typing.settled(end.timeS)), end.timeS),
    answer('finalWeight', weigh(bench, water(weighS), roomC), weighS),
    answer('ambientTemperatureAfter', c(roomShown(bench, roomC, 'after')), weighS + 20),
    answer('energyAfter', kWh(counter(weighS + 40)), weighS + 40),
    answer('letCool', '', waitS),
    answer('meterLog', `../exports/${names[0]}`, waitS + 60),
    answer('temperatureLog', `../exports/${names[1]}`, waitS + 80),
    answer('remarks', '', waitS + 90),
  ];
  const power = (timeS) => (timeS >= 0 && timeS < off.timeS ? heating.powerAt(timeS, true) : HEATER.standbyW);
  const logS = handling.logStartS;
  const edges = [...steps(logS, -6, 10), ...steps(-5, 6, 1), ...steps(10, off.timeS - 6, 10)];
  const times = [...edges, ...steps(off.timeS - 5, off.timeS + 6, 1), ...steps(off.timeS + 10, waitS, 10)];
  const truth = {
    kappa: kappaOf(conditions),
    bodyHeatCapacityJPerK: bodyOf(conditions),
    uaWPerK: lossOf(conditions),
    waterKg,
    startC: start.loadC,
    endC: end.loadC,
    roomC,
  };
  const files = {
    [names[0]]: powerCsv(bench, times, power),
    [names[1]]: temperatureCsv(bench, logging, logS, waitS),
  };
  return runOf(bench, 'two-fills', 'full', answers, files, truth);
}

/** The counter in Wh through a heating, stand-by included. */
function counterOf(bench, heating, fromS) {
  const { course, off } = heating;
  const input = along(course.timeS, course.inputJ);
  const held = bench.stream('counter').between(500, 20000);
  const gain = 1 + bench.instruments.meter.gainError;
  return (timeS) => {
    const idleS = Math.min(timeS, 0) - fromS + Math.max(0, timeS - off.timeS);
    const passedJ = timeS < course.timeS[0] ? 0 : input(timeS);
    return held + (gain * (passedJ + HEATER.standbyW * idleS)) / 3600;
  };
}
