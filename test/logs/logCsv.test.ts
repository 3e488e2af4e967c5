import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Log, LogFile, logCsv, openExport, readExport } from '../../src/logs/index.js';
import { corpusFiles } from '../support/corpusReadings.js';
import { emptyFolder } from '../support/folders.js';
import { logOf } from './exportOf.js';

const textOf = (log: Log | LogFile) => [...logCsv(log)].join('');
const arrays = ['powerW', 'energyJ', 'voltageV', 'currentA', 'powerFactor', 'temperatureK'] as const;

/** The largest relative difference between two columns; unknown values stand in the same rows. */
function apart(a: Float64Array, b: Float64Array): number {
  expect(a.length).toBe(b.length);
  let most = 0;
  for (const [row, value] of a.entries()) {
    const other = b[row] as number;
    expect(Number.isNaN(other)).toBe(Number.isNaN(value));
    if (value !== other && !Number.isNaN(value))
      most = Math.max(most, Math.abs(value - other) / Math.max(Math.abs(value), Math.abs(other)));
  }
  return most;
}

describe('a log as tidy CSV', () => {
  it.each(corpusFiles)('$name reads back to the same values', ({ bytes, options }) => {
    const log = readExport(bytes, options);
    const text = textOf(log);
    // What is stated about the columns of the export doesn't hold for ours, but a counter that falls stays one.
    const columns = options.columns?.energy === undefined ? {} : { columns: { energy: 'energy_Wh' } };
    const back = logOf(text, columns);
    expect(back.rows).toBe(log.rows);
    for (const key of arrays) {
      const [before, after] = [log[key], back[key]];
      // A column in which nothing is known can't be told from one that isn't there.
      if (before === null || before.every(Number.isNaN))
        expect(after === null || after.every(Number.isNaN)).toBe(true);
      else expect(apart(before, after as Float64Array), key).toBeLessThanOrEqual(1e-12);
      // Watts, volts and amperes are kept as they are: not a bit may change.
      if (before && after && key !== 'energyJ' && key !== 'temperatureK')
        expect(apart(before, after)).toBe(0);
    }
    expect(back.startUtcMs).toBe(log.startUtcMs);
    const { timesS } = logOf(text, { ...columns, columns: { ...columns.columns, time: 'time_s' } });
    expect(apart(log.timesS, timesS)).toBe(0);
    // A clock time holds its second of the day to half a nanosecond.
    for (const [row, time] of log.timesS.entries())
      expect(Math.abs((back.timesS[row] as number) - time)).toBeLessThan(1e-9);
    // And what is written of that is the same text.
    expect(textOf({ ...back, timesS: log.timesS })).toBe(text);
  });
});

describe('what is written', () => {
  const csv = (text: string) => textOf(logOf(text)).split('\n');

  it('has the unit in each header, an empty cell for what is not known, and no text of the export', () => {
    expect(csv('t [min];"=cmd|x!A0 P [kW]";note;T [°C]\n0;0,9;=1+1;11,9\n1;OL;-2;12,1\n')).toEqual([
      'time_s,power_W,temperature_degC',
      '0,900,11.9',
      '60,,12.1',
      '',
    ]);
  });

  it('has the moment beside the seconds where the clock is known, as fine as it is', () => {
    const times = ['10:00:00', '10:00:00.25', '10:00:01.000125', '10:00:02'];
    const rows = times.map((time) => `2026-03-01T${time}+01:00,900`).join('\n');
    const lines = csv(`Time,P [W]\n${rows}\n`);
    expect(lines[0]).toBe('time_s,time_utc,power_W');
    expect(lines.slice(1, 5).map((line) => line.split(',')[1])).toEqual([
      '2026-03-01T09:00:00.000Z',
      '2026-03-01T09:00:00.250Z',
      '2026-03-01T09:00:01.000125Z',
      '2026-03-01T09:00:02.000Z',
    ]);
  });

  it('has every column the reader knows, in one order', () => {
    const lines = csv(
      't [s],T [K],PF,I [A],U [V],E [J],P [W]\n0,300,0.5,4,230,3600,460\n10,301,0.5,4,230,7200,460\n',
    );
    expect(lines.slice(0, 2)).toEqual([
      'time_s,power_W,energy_Wh,voltage_V,current_A,power_factor,temperature_degC',
      '0,460,1,230,4,0.5,26.85',
    ]);
  });

  it.each(['=2+5', '+A1', '-A1', '@SUM(A1)', '\t=1', '\r=1'])(
    'is no formula, whatever the export calls %j',
    (name) => {
      const text = textOf(logOf(`t [s];"${name} P [W]";"${name}"\n0;900;"${name}"\n10;900;"${name}"\n`));
      expect(text).toBe('time_s,power_W\n0,900\n10,900\n');
    },
  );
});

/** Numbers from 0 up to 1 that are the same in every run: a linear congruential generator with the constants of C11's example. */
function* seeded(seed: number): Generator<number, never> {
  let state = BigInt(seed);
  for (;;) {
    state = (state * 1103515245n + 12345n) % 2147483648n;
    yield Number(state) / 2147483648;
  }
}

describe('numbers of any size', () => {
  it.each([1, 2, 3])('come back the same, seed %i', (seed) => {
    const random = seeded(seed);
    const rows = Array.from({ length: 2000 }, (_, i) => {
      const [p, e, t] = [random.next().value, random.next().value, random.next().value];
      const watts = (p - 0.3) * 10 ** Math.floor(12 * e - 6);
      return `${i / 3},${watts},${(i * 0.1 + e).toFixed(Math.floor(8 * t))},${(400 * t - 50).toFixed(Math.floor(6 * p))}`;
    });
    const log = logOf(`t [s],P [W],E [kWh],T [°F]\n${rows.join('\n')}\n`, { columns: { energy: 'E [kWh]' } });
    const back = logOf(textOf(log), { columns: { energy: 'energy_Wh' } });
    for (const key of ['timesS', 'powerW'] as const)
      expect(apart(log[key] as Float64Array, back[key] as Float64Array)).toBe(0);
    for (const key of ['energyJ', 'temperatureK'] as const)
      expect(apart(log[key] as Float64Array, back[key] as Float64Array)).toBeLessThanOrEqual(1e-12);
  });
});

describe('a large file', () => {
  it('is written piece by piece, to the same text as from memory', async () => {
    const rows = Array.from({ length: 30_000 }, (_, i) => {
      const at = new Date(Date.UTC(2026, 2, 1) + i * 1000).toISOString();
      return `${at},${i % 7 === 3 ? '' : 900 + (i % 13) / 10},${(i / 4).toFixed(2)}`;
    });
    const path = join(emptyFolder(), 'large.csv');
    writeFileSync(path, `Time,P [W],E [Wh]\n${rows.join('\n')}\n`);
    const [small, large] = [
      await openExport(path),
      await openExport(path, { inMemoryBytes: 1000, helpers: 0 }),
    ];
    expect([small instanceof LogFile, large instanceof LogFile]).toEqual([false, true]);
    const pieces = [...logCsv(large)];
    expect(pieces.join('')).toBe(textOf(small));
    expect(pieces.length).toBeGreaterThan(3);
    expect(Math.max(...pieces.map((piece) => piece.length))).toBeLessThan(pieces.join('').length / 3);
  });
});
