import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  type ColumnRole,
  describeLog,
  type Log,
  type ReadOptions,
  readExport,
} from '../../src/logs/index.js';
import { corpus } from './exportOf.js';

interface Expected {
  readonly options?: ReadOptions;
  /** Delimiter, decimal sign, encoding, header line, first data line. */
  readonly layout: readonly [string, string, string, number | null, number];
  readonly time: readonly [form: string, zone: string | null, start: string | null];
  readonly timesS: readonly number[];
  readonly roles: readonly ColumnRole[];
  readonly values: Partial<Record<keyof Log, readonly number[]>>;
  readonly warnings?: readonly RegExp[];
}

const C = 273.15;
const elapsed = ['elapsed-s', null, null] as const;

// The reading of each file, written by hand from the file and not from the program.
const readings: Record<string, Expected> = {
  'comma-elapsed.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10, 20, 30, 40],
    roles: ['time', 'power'],
    values: { powerW: [1, 1, 900, 900, 1] },
  },
  'semicolon-decimal-comma.csv': {
    layout: [';', ',', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10, 20],
    roles: ['time', 'power', 'energy'],
    values: { powerW: [1.5, 899.5, 900.5], energyJ: [360_000, 363_600, 374_400] },
  },
  'tab-unit-line.csv': {
    layout: ['\t', '.', 'utf-8', 1, 3],
    time: ['elapsed-min', null, null],
    timesS: [0, 30],
    roles: ['time', 'voltage', 'current'],
    values: { voltageV: [230, 231.5], currentA: [3.913, 3.9], powerW: [899.99, 902.85] },
    warnings: [/resistive load only/],
  },
  'pipe-quotes.csv': {
    layout: ['|', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1],
    roles: ['time', 'power', 'ignored'],
    values: { powerW: [900, 901] },
  },
  'thousands.csv': {
    layout: [';', ',', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1],
    roles: ['time', 'power', 'energy'],
    values: { powerW: [1900.5, 1901], energyJ: [3_600_000, 3_603_600] },
  },
  'utf16le.csv': {
    layout: [';', ',', 'utf-16le', 1, 2],
    time: elapsed,
    timesS: [0, 2],
    roles: ['time', 'power', 'temperature'],
    values: { powerW: [900, 901], temperatureK: [20.5 + C, 20.6 + C] },
  },
  'utf16le-no-mark.csv': {
    layout: [',', '.', 'utf-16le', 1, 2],
    time: elapsed,
    timesS: [0, 1],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'latin1-degree.csv': {
    layout: [';', ',', 'latin1', 1, 2],
    time: elapsed,
    timesS: [0, 60],
    roles: ['time', 'temperature'],
    values: { temperatureK: [20.5 + C, 25.5 + C] },
  },
  'preamble-trailer.csv': {
    layout: [';', '.', 'utf-8', 5, 6],
    time: elapsed,
    timesS: [0, 1, 2],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 902] },
    warnings: [/^2 lines at the end from line 10 \("End of log"\)/],
  },
  'old-mac-lines.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'fahrenheit-slash.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 5, 10],
    roles: ['time', 'temperature'],
    values: { temperatureK: [10 + C, 15 + C, 100 + C] },
  },
  'cells-with-units.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['elapsed-hms', null, null],
    timesS: [0, 1, 2, 3],
    roles: ['time', 'power', 'temperature'],
    values: {
      powerW: [0.999, 1200, Number.NaN, 900],
      temperatureK: [20 + C, 20 + C, Number.NaN, Number.NaN],
    },
    warnings: [/"Power" has no value in 1 of 4/, /"Temp" has no value in 2 of 4/],
  },
  'elapsed-ms.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['elapsed-ms', null, null],
    timesS: [0, 0.1, 0.3],
    roles: ['time', 'power'],
    values: { powerW: [900, 900, 800] },
  },
  'elapsed-hms.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['elapsed-hms', null, null],
    timesS: [0, 1, 2.5],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 902] },
  },
  'elapsed-mmss.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['elapsed-mmss', null, null],
    timesS: [0, 1, 2],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 902] },
  },
  'iso-utc.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['iso', 'UTC', '2026-03-01T10:00:00.250Z'],
    timesS: [0, 1],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'iso-offset.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['iso', '+01:00', '2026-03-01T09:00:00.000Z'],
    timesS: [0, 1],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'iso-basic.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['iso', 'UTC', '2026-03-01T10:00:00.000Z'],
    timesS: [0, 2],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'iso-no-zone.csv': {
    options: { zone: 'Europe/Vienna' },
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['iso', 'Europe/Vienna', '2026-07-01T08:00:00.000Z'],
    timesS: [0, 1],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'day-first-slash.csv': {
    options: { zone: 'UTC' },
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['day-first', 'UTC', '2026-03-12T23:59:59.000Z'],
    timesS: [0, 2],
    roles: ['date', 'time', 'power'],
    values: { powerW: [900, 901] },
  },
  'month-first-12h.csv': {
    options: { zone: 'UTC' },
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['month-first', 'UTC', '2026-03-12T23:59:59.000Z'],
    timesS: [0, 2],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'day-first-dots.csv': {
    options: { zone: '+01:00' },
    layout: [';', '.', 'utf-8', 1, 2],
    time: ['day-first', '+01:00', '2026-02-01T07:00:00.000Z'],
    timesS: [0, 1],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'days-in-a-row.csv': {
    options: { zone: 'UTC' },
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['day-first', 'UTC', '2026-02-01T12:00:00.000Z'],
    timesS: [0, 86400, 172800],
    roles: ['date', 'time', 'power'],
    values: { powerW: [900, 901, 902] },
  },
  'epoch-s.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['epoch-s', 'UTC', '2026-03-01T10:00:00.000Z'],
    timesS: [0, 1],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'epoch-ms.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['epoch-ms', 'UTC', '2026-03-01T10:00:00.000Z'],
    timesS: [0, 0.5],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'header-zone.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['iso', '+02:00', '2026-03-01T08:00:00.000Z'],
    timesS: [0, 1],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'clock-over-midnight.csv': {
    layout: [';', '.', 'utf-8', 1, 2],
    time: ['elapsed-hms', null, null],
    timesS: [0, 1, 3],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 902] },
    warnings: [/passes midnight/],
  },
  'volts-amps-factor.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1],
    roles: ['time', 'voltage', 'current', 'powerFactor'],
    values: { powerW: [460, 460], powerFactor: [0.5, 0.5] },
    warnings: [/voltage times current times power factor/],
  },
  'temperature-only.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 60],
    roles: ['time', 'temperature'],
    values: { temperatureK: [293.15, 303.15] },
  },
  'repeats.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1, 2],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 903] },
    warnings: [/1 of 4 rows repeat/],
  },
  'late-row.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1, 2, 3],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 902, 903] },
    warnings: [/1 of 4 rows were out of order/],
  },
  'newest-first.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1, 2, 3],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 902, 903] },
    warnings: [/turned round/],
  },
  'repeated-header.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
    warnings: [/repeated 1 times/],
  },
  'status-columns.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1],
    roles: ['ignored', 'time', 'power', 'ignored', 'ignored', 'ignored', 'ignored', 'ignored'],
    values: { powerW: [900, 901] },
  },
  'cut-last-row.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1],
    roles: ['time', 'power', 'temperature'],
    values: { powerW: [900, 901], temperatureK: [20 + C, 20.1 + C] },
    warnings: [/Line 4 \("2,90"\) is cut off/],
  },
  'cut-last-number.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1, 2],
    roles: ['time', 'power'],
    values: { powerW: [900.1, 901.2, 902.3] },
    warnings: [/last number of line 5 is cut off/],
  },
  'two-clocks.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1],
    roles: ['ignored', 'time', 'power'],
    values: { powerW: [900, 901] },
    warnings: [/from "Elapsed \(s\)", not from "Timestamp"/],
  },
};

describe('the corpus', () => {
  it.each(Object.entries(readings))('%s reads as written by hand', (name, expected) => {
    const log = readExport(corpus(name), expected.options);
    const { delimiter, decimal, encoding, headerLine, firstDataLine, timeForm, zone, columns } = log.mapping;
    expect([delimiter, decimal, encoding, headerLine, firstDataLine]).toEqual(expected.layout);
    const start = log.startUtcMs === null ? null : new Date(log.startUtcMs).toISOString();
    expect([timeForm, zone, start]).toEqual(expected.time);
    expect(columns.map(({ role }) => role)).toEqual(expected.roles);
    expect(log.rows).toBe(expected.timesS.length);
    expectClose(log.timesS, expected.timesS);
    for (const [key, values] of Object.entries(expected.values)) {
      expectClose(log[key as 'powerW'] ?? new Float64Array(), values);
    }
    const patterns = expected.warnings ?? [];
    expect(log.warnings.length, log.warnings.join('\n')).toBe(patterns.length);
    for (const [index, pattern] of patterns.entries()) expect(log.warnings[index]).toMatch(pattern);
  });

  it('is all named here or in the tests of energy', () => {
    const files = readdirSync(new URL('./corpus/', import.meta.url));
    expect(files.sort()).toEqual([...Object.keys(readings), 'counter-only.csv'].sort());
  });

  it.each(Object.entries(readings))('%s is described in words, with its evidence', (name, expected) => {
    const lines = describeLog(readExport(corpus(name), expected.options));
    expect(lines.length).toBeGreaterThanOrEqual(4);
    for (const line of lines) expect(line).toMatch(/^[A-Z].*\.$/);
    expect(lines.join('\n')).not.toMatch(/undefined|null|NaN/);
  });
});

function expectClose(got: Float64Array, expected: readonly number[]): void {
  expect(got.length).toBe(expected.length);
  // Double arithmetic on a few operations: 1e-9 leaves a factor of 1e3 at the largest value here.
  for (const [index, value] of expected.entries()) {
    if (Number.isNaN(value)) expect(got[index]).toBeNaN();
    else expect(Math.abs(got[index]! - value)).toBeLessThan(1e-9 * Math.max(1, Math.abs(value)));
  }
}
