import { dayFirst, isoLocalMillis, isoUtc } from './clock.mjs';
import { HEATER } from './heater.mjs';

const JITTER_S = 0.025;
const JITTER_LIMIT_S = 0.1;
const TEMPERATURE_EVERY_S = 10;
/** No row is lost this close to a switching. */
const KEPT_AROUND_S = 15;

const comma = (value, digits) => value.toFixed(digits).replace('.', ',');

/**
 * One row of the meter.
 * @typedef {object} PowerRow
 * @property {number} timeS from switch-on
 * @property {number} powerW as indicated at that moment, not yet rounded
 * @property {number} voltageV
 * @property {number} counterWh
 */

/**
 * What the meter logs: the power of the moment, every `everyS` seconds with some jitter, a few rows lost.
 * @param {import('./heating.mjs').Heating} heating
 * @param {import('./conditions.mjs').Conditions} conditions
 * @param {import('./instruments.mjs').Instruments['meter']} meter
 * @param {import('./bench.mjs').Handling} handling
 * @param {(timeS: number) => number} counterWh
 * @param {import('./random.mjs').Random} random
 * @param {number} everyS
 * @returns {PowerRow[]}
 */
export function logPower(heating, conditions, meter, handling, counterWh, random, everyS) {
  const offS = heating.off.timeS;
  const lastS = heating.last.timeS;
  const lost = drawLost(offS, random);
  const phase = random.between(0.25, 0.75);
  const rows = [];
  for (let n = 0; ; n++) {
    const jitter = Math.max(-JITTER_LIMIT_S, Math.min(JITTER_LIMIT_S, JITTER_S * random.normal()));
    const timeS = handling.logStartS + n * everyS + phase + jitter;
    if (timeS > lastS) return rows;
    if (lost.some(([from, to]) => timeS > from && timeS < to)) continue;
    const on = timeS >= 0 && timeS < offS;
    rows.push({
      timeS,
      powerW: (1 + meter.gainError) * (on ? heating.powerAt(timeS, true) : HEATER.standbyW),
      voltageV: (1 + meter.voltageError) * conditions.voltage(timeS),
      counterWh: counterWh(timeS),
    });
  }
}

/** Two to five gaps of one to three seconds during the heating. */
function drawLost(offS, random) {
  return Array.from({ length: random.whole(2, 5) }, () => {
    const from = random.whole(KEPT_AROUND_S, offS - KEPT_AROUND_S - 3);
    return [from, from + random.whole(1, 3)];
  });
}

/**
 * The meter's export in one of three dialects.
 * @param {readonly PowerRow[]} rows
 * @param {import('./schedule.mjs').Slot} slot
 * @param {number} logStartS
 */
export function powerCsv(rows, slot, logStartS) {
  if (slot.setting.dialect === 'semicolon') {
    const head = `\uFEFFGerät;meter-1\r\nAufzeichnung;${slot.id}\r\nZeit;Leistung (W);Spannung (V);Zähler (Wh)\r\n`;
    const line = (row) =>
      `${dayFirst(slot.onS + row.timeS)};${comma(row.powerW, 1)};${comma(row.voltageV, 1)};${comma(row.counterWh, 2)}\r\n`;
    return head + rows.map(line).join('');
  }
  if (slot.setting.dialect === 'comma') {
    const line = (row) =>
      `${isoLocalMillis(slot.onS + row.timeS)},${row.powerW.toFixed(1)},${row.voltageV.toFixed(1)},${(row.counterWh / 1000).toFixed(5)}\n`;
    return `time,power_W,voltage_V,energy_kWh\n${rows.map(line).join('')}`;
  }
  const line = (row) =>
    `${(row.timeS - logStartS).toFixed(2)}\t${(row.powerW / 1000).toFixed(4)}\t${row.voltageV.toFixed(1)}\n`;
  return `elapsed_s\tpower_kW\tvoltage_V\n${rows.map(line).join('')}`;
}

/**
 * The thermometer's export: every ten seconds in tenths of a degree; semicolons and local time where the meter
 * writes so too, else commas and UTC.
 * @param {ReturnType<typeof import('./bench.mjs').createProbe>} probe
 * @param {import('./heating.mjs').Heating} heating
 * @param {import('./schedule.mjs').Slot} slot
 * @param {number} logStartS
 * @param {import('./random.mjs').Random} random
 */
export function temperatureCsv(probe, heating, slot, logStartS, random) {
  const semicolon = slot.setting.dialect === 'semicolon';
  const lines = [semicolon ? 'Zeit;Temperatur (°C)\n' : 'time,temperature_C\n'];
  for (let timeS = logStartS + random.uniform(); timeS <= heating.last.timeS; timeS += TEMPERATURE_EVERY_S) {
    const shown = probe.logged(timeS);
    const localS = slot.onS + timeS;
    lines.push(
      semicolon ? `${dayFirst(localS)};${comma(shown, 1)}\n` : `${isoUtc(localS)},${shown.toFixed(1)}\n`,
    );
  }
  return lines.join('');
}
