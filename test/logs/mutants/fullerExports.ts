import type { ReadOptions } from '../../../src/logs/index.js';
import { draws } from '../simulated.js';

/** A made-up export of the hill dairy's vat warmer. */
export interface FullerExport {
  readonly name: string;
  readonly text: string;
  readonly options: ReadOptions;
  /** What its reading must say, and nothing else; written by hand. */
  readonly warnings: readonly RegExp[];
}

interface Sample {
  readonly s: number;
  readonly volts: number;
  readonly amps: number;
  readonly factor: number;
  readonly watts: number;
  readonly wattHours: number;
  readonly celsius: number;
}

/** A heater of 900 W on a mains that wanders, its meter's counter, and the milk that it warms. */
function samples(seed: number, rows: number, intervalS: number, isOn: (s: number) => boolean): Sample[] {
  const random = draws(seed);
  let [volts, wattHours, celsius, before] = [230, 1234.5, 8, Number.NaN];
  return Array.from({ length: rows }, (_, row) => {
    const s = row * intervalS;
    volts += 0.6 * (random() - 0.5) + 0.05 * (230 - volts);
    const on = isOn(s);
    const factor = on ? 1 - 0.002 * random() : 0.45 + 0.02 * random();
    const amps = on ? (3.913 * volts) / 230 : 0.0115 + 0.0004 * random();
    const watts = volts * amps * factor;
    if (row > 0) wattHours += ((before + watts) / 2) * (intervalS / 3600);
    celsius += (on ? 0.004 : -0.0002) * intervalS;
    before = watts;
    return { s, volts, amps, factor, watts, wattHours, celsius: celsius + 0.04 * (random() - 0.5) };
  });
}

// An ordinary morning, far from any change of the clocks.
const start = Date.UTC(2026, 2, 14, 9, 50, 0);
const iso = (s: number) => new Date(start + 1000 * s).toISOString();
const comma = (value: number, places: number) => value.toFixed(places).replace('.', ',');
const between = (from: number, to: number) => (s: number) => s >= from && s < to;
const table = (header: string, rows: readonly string[], end = '\n') => `${[header, ...rows].join(end)}${end}`;

const everything: FullerExport = {
  name: 'everything',
  text: table(
    'Time,U [V],I [A],P [W],PF,E [Wh],T1 (°C),State',
    samples(1, 160, 5, between(62, 701)).map(
      ({ s, volts, amps, factor, watts, wattHours, celsius }) =>
        `${iso(s).slice(0, 19)}Z,${volts.toFixed(1)},${amps.toFixed(4)},${watts.toFixed(2)},${factor.toFixed(3)},${wattHours.toFixed(2)},${celsius.toFixed(2)},ok`,
    ),
  ),
  options: {},
  warnings: [],
};

const dayFirst: FullerExport = {
  name: 'day first, decimal comma, counter',
  text: table(
    'Datum;Uhrzeit;Leistung (W);Zähler (kWh)',
    samples(2, 160, 10, between(95, 1404)).map(
      ({ s, watts, wattHours }) =>
        `${iso(s).slice(8, 10)}.03.2026;${iso(s).slice(11, 19)};${comma(watts, 1)};${comma(wattHours / 1000, 4)}`,
    ),
    '\r\n',
  ),
  options: { zone: 'Europe/Vienna' },
  warnings: [],
};

const powerOnly: FullerExport = {
  name: 'power only, elapsed seconds',
  text: table(
    'time_s,P [W]',
    samples(3, 140, 4, between(42, 501)).map(({ s, watts }) => `${s},${watts.toFixed(1)}`),
  ),
  options: {},
  warnings: [],
};

const counterOnly: FullerExport = {
  name: 'counter only',
  text: table(
    't [s],Energy [Wh]',
    samples(4, 150, 10, between(155, 1204)).map(({ s, wattHours }) => `${s},${wattHours.toFixed(2)}`),
  ),
  options: {},
  warnings: [],
};

const voltsAndAmps: FullerExport = {
  name: 'volts and amps only',
  text: table(
    'Elapsed (min)\tVoltage (V)\tCurrent (A)',
    samples(5, 140, 6, between(63, 730)).map(
      ({ s, volts, amps }) => `${(s / 60).toFixed(1)}\t${volts.toFixed(1)}\t${amps.toFixed(3)}`,
    ),
  ),
  options: {},
  warnings: [/^The export has neither power nor power factor: .* for a resistive load only\.$/],
};

// No two pauses of a thermostat are of one length; each follows on 28 s of heating.
const pauseLengths = [19.3, 22.1, 18.4, 20.9, 23.2, 19.8, 21.7, 18.9, 22.6, 20.2, 17.7];
const pauses = pauseLengths.map((length, i) => {
  const fromS = 33 + 28 * (i + 1) + pauseLengths.slice(0, i).reduce((sum, each) => sum + each, 0);
  return [fromS, fromS + length] as const;
});
const cycles = (s: number) => s >= 31 && s < 560 && !pauses.some(([from, to]) => s >= from && s < to);

const thermostat: FullerExport = {
  name: 'cycling thermostat',
  text: table(
    'Timestamp,Active power (W)',
    samples(6, 300, 2, cycles).map(
      ({ s, watts }) => `${iso(s).slice(0, 19).replace('T', ' ')},${watts.toFixed(1)}`,
    ),
  ),
  options: { zone: 'Europe/Vienna' },
  warnings: [],
};

const means: FullerExport = {
  name: 'means in kilowatts, epoch milliseconds, pipes',
  text: table(
    'timestamp|Mean power (kW)|Energy (kWh)|Probe (°C)',
    samples(7, 121, 10, between(85, 1010))
      .map(({ s, wattHours, celsius }, row, all) => {
        const kilowatts = 0.36 * (wattHours - (all[row - 1]?.wattHours ?? Number.NaN));
        return `${start + 1000 * s}|${kilowatts.toFixed(4)}|${(wattHours / 1000).toFixed(4)}|${celsius.toFixed(1)}`;
      })
      .slice(1),
  ),
  options: {},
  warnings: [],
};

export const fullerExports: readonly FullerExport[] = [
  everything,
  dayFirst,
  powerOnly,
  counterOnly,
  voltsAndAmps,
  thermostat,
  means,
];
