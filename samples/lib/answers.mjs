import { isoLocal } from './clock.mjs';

/**
 * Ways in which one and the same display is typed. The third sets the counter to zero before each run, leaves
 * out units that the prompt shows, and writes a decimal comma where no one can take it for thousands.
 */
const FORMS = [
  {
    mass: (g) => `${g} g`,
    energy: (wh) => `${(wh / 1000).toFixed(3)} kWh`,
    temperature: (t) => `${t.toFixed(1)} °C`,
  },
  {
    mass: (g) => `${(g / 1000).toFixed(3)} kg`,
    energy: (wh) => `${wh} Wh`,
    temperature: (t) => `${t.toFixed(1).replace('.', ',')} °C`,
  },
  {
    mass: (g) => `${g}`,
    energy: (wh) => (wh === 0 ? '0 kWh' : `${(wh / 1000).toFixed(3).replace('.', ',')} kWh`),
    temperature: (t) => t.toFixed(1),
  },
];

const REMARKS = [
  '',
  '',
  'Lid rattled a little near the end.',
  '',
  'Lorry in the yard at about half time.',
  '',
];

/** @param {import('./schedule.mjs').Slot} slot */
const formIndex = (slot) => (slot.settingIndex + slot.number) % FORMS.length;

/** Whether the hand sets the counter to zero before this run. @param {import('./schedule.mjs').Slot} slot */
export const isZeroed = (slot) => formIndex(slot) === 2;

/**
 * One line of an answers file.
 * @typedef {object} Answer
 * @property {string} step
 * @property {string} value as typed; empty to go on
 * @property {string} at ISO 8601 with offset
 */

/**
 * What a person at the bench types, step by step in the order of the protocol water-heating.
 * @param {import('./schedule.mjs').Slot} slot
 * @param {import('./bench.mjs').Handling} handling
 * @param {ReturnType<typeof import('./bench.mjs').readBench>} readings
 * @param {import('./heating.mjs').Heating} heating
 * @returns {Answer[]}
 */
export function typeAnswers(slot, handling, readings, heating) {
  const { mass, energy, temperature } = FORMS[formIndex(slot)];
  const { logStartS, energyBeforeS, readS } = handling;
  const { weighS, energyAfterS } = readings;
  const answer = (step, value, timeS) => ({ step, value, at: isoLocal(slot.onS + timeS) });
  const interim = readings.interim.map(({ timeS, temperatureC }) =>
    answer('interimTemperature', temperature(temperatureC), timeS),
  );
  const goOnS = readings.interim.at(-1).timeS + 5;
  const remark = REMARKS[(slot.settingIndex * 2 + slot.number) % REMARKS.length];
  return [
    answer('cautions', 'yes', energyBeforeS - 620),
    answer('atRest', 'yes', energyBeforeS - 590),
    answer('draughtFree', 'yes', energyBeforeS - 570),
    answer('lid', 'on', energyBeforeS - 550),
    answer('ambientTemperature', temperature(readings.roomC), energyBeforeS - 510),
    answer('pressure', '', energyBeforeS - 500),
    answer('emptyWeight', mass(readings.emptyG), energyBeforeS - 400),
    answer('fullWeight', mass(readings.fullG), energyBeforeS - 200),
    answer('energyBefore', energy(readings.energyBeforeWh), energyBeforeS),
    answer('startLog', '', logStartS),
    answer('startTemperature', temperature(readings.startC), readS),
    answer('switchOn', '', 0),
    ...interim,
    answer('interimTemperature', '', goOnS),
    answer('switchOff', '', heating.off.timeS),
    answer('endTemperature', temperature(readings.endC), heating.end.timeS),
    answer('finalWeight', mass(readings.finalG), weighS),
    answer('energyAfter', energy(readings.energyAfterWh), energyAfterS),
    answer('meterLog', `../exports/${slot.id}-power.csv`, energyAfterS + 240),
    answer('temperatureLog', `../exports/${slot.id}-temperature.csv`, energyAfterS + 270),
    answer('remarks', remark, energyAfterS + 300),
  ];
}

/**
 * The answers file of a run.
 * @param {{ id: string, heater: string, setting: string, answers: Answer[] }} run
 */
export function answersYaml(run) {
  const lines = run.answers.map(
    ({ step, value, at }) => `  - { step: ${step}, value: ${JSON.stringify(value)}, at: "${at}" }\n`,
  );
  return `schema: 1
run: ${run.id}
protocol: water-heating
heater: ${run.heater}
setting: ${run.setting}
hand: mr
instruments: { scale: scale-1, thermometer: logger-1, wattmeter: meter-1 }
answers:
${lines.join('')}`;
}
