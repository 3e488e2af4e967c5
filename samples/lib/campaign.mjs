import { isZeroed, typeAnswers } from './answers.mjs';
import { createCounter, createProbe, drawHandling, readBench } from './bench.mjs';
import { drawConditions } from './conditions.mjs';
import { logPower, powerCsv, temperatureCsv } from './exports.mjs';
import { HEATER, SETTINGS } from './heater.mjs';
import { heat } from './heating.mjs';
import { drawInstruments } from './instruments.mjs';
import { randomStream } from './random.mjs';
import { benchRecords } from './records.mjs';
import { planDays } from './schedule.mjs';
import { balance, expectation } from './truth.mjs';

/**
 * @typedef {import('./answers.mjs').Answer} Answer
 * @typedef {import('./heater.mjs').Setting} Setting
 */

/**
 * One heating with all that the bench saw of it and what was true.
 * @typedef {object} SimulatedRun
 * @property {string} id
 * @property {string} heater
 * @property {string} setting
 * @property {Answer[]} answers
 * @property {string} powerCsv
 * @property {string} temperatureCsv
 * @property {ReturnType<typeof runTruth>} truth
 */

/**
 * A whole campaign on the invented vat warmer, nothing written to disk. The same seed gives the same text, byte
 * for byte; another seed redraws the instruments' errors, the order, and every run.
 *
 * @param {object} options
 * @param {number} options.seed whole number from 0 to 4294967295
 * @param {readonly (Setting | string)[]} [options.settings] settings, or ids of the three known ones (default: all three)
 * @param {number} [options.runsPerSetting] default 3
 * @param {number} [options.scatter] factor on the run-to-run scatter of contact, draught and lid, default 1
 * @param {boolean} [options.fast] steps of the model and rows of the meter every 5 s instead of 1 s
 */
export function simulateCampaign({
  seed,
  settings = SETTINGS,
  runsPerSetting = 3,
  scatter = 1,
  fast = false,
}) {
  const chosen = settings.map(settingOf);
  const instruments = drawInstruments(seed);
  const slots = planDays(seed, HEATER.id, chosen, runsPerSetting);
  const runs = slots.map((slot) => simulateRun(seed, slot, instruments, scatter, fast ? 5 : 1));
  const truth = {
    seed,
    scatter,
    instruments,
    heater: HEATER,
    settings: Object.fromEntries(
      chosen.map(({ id, powerW }) => [id, { powerW, ...expectation(powerW, scatter) }]),
    ),
    runs: Object.fromEntries(runs.map((run) => [run.id, run.truth])),
  };
  return { records: benchRecords(chosen), runs, truth };
}

/** @returns {Setting} */
function settingOf(given) {
  const found = typeof given === 'string' ? SETTINGS.find(({ id }) => id === given) : given;
  if (!found)
    throw new RangeError(`no setting "${given}"; known: ${SETTINGS.map(({ id }) => id).join(', ')}`);
  return found;
}

/** @returns {SimulatedRun} */
function simulateRun(seed, slot, instruments, scatter, everyS) {
  const stream = (what) => randomStream(seed, `${slot.id} ${what}`);
  const conditions = drawConditions(stream('conditions').normal, scatter);
  const handling = drawHandling(stream('handling'));
  const heating = heat(conditions, slot.setting.powerW, handling, everyS);
  const counterWh = createCounter(heating, instruments.meter, handling, isZeroed(slot));
  const typing = createProbe(heating, instruments.logger, handling, stream('typing'));
  const logging = createProbe(heating, instruments.logger, handling, stream('logging'));
  const readings = readBench(heating, instruments, handling, typing, counterWh, conditions);
  const rows = logPower(heating, conditions, instruments.meter, handling, counterWh, stream('meter'), everyS);
  return {
    id: slot.id,
    heater: HEATER.id,
    setting: slot.setting.id,
    answers: typeAnswers(slot, handling, readings, heating),
    powerCsv: powerCsv(rows, slot, handling.logStartS),
    temperatureCsv: temperatureCsv(logging, heating, slot, handling.logStartS, stream('clock')),
    truth: runTruth(heating, conditions, handling, counterWh),
  };
}

/** What was true in a run, SI and °C; times in seconds from switch-on. */
function runTruth(heating, conditions, handling, counterWh) {
  const { roomC, humidity, contact, draught, lidFit } = conditions;
  return {
    ...balance(heating),
    switchOffS: heating.off.timeS,
    turningPointS: heating.end.timeS,
    roomC,
    humidity,
    contact,
    draught,
    lidFit,
    stirringStartK: handling.stirringStartK,
    stirringEndK: handling.stirringEndK,
    logStartS: handling.logStartS,
    counterBeforeWh: counterWh(handling.energyBeforeS),
  };
}
