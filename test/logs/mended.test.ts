import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { LogFile, logDoubts, logSummary, openExport } from '../../src/logs/index.js';
import { errorOf, logOf, powerLog } from './exportOf.js';

// Exports in which a mutation had changed the energy and nothing was said: what must be said, written by hand.

const folder = mkdtempSync(join(tmpdir(), 'heatledger-mended-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const lines = (header: string, rows: readonly string[]) => `${header}\n${rows.join('\n')}\n`;
const count = (n: number) => Array.from({ length: n }, (_, i) => i);
/** On from row 10 to before row 50 of 60, ten seconds apart. */
const isOn = (i: number) => i >= 10 && i < 50;
// 900 W for 10 s are 2.5 Wh; 1.2 W of standby show in no step of 0.1 Wh here.
const counter = (i: number) => (2.5 * Math.max(0, Math.min(i, 50) - 10)).toFixed(1);

describe('a counter alone', () => {
  const log = (cells: readonly string[], keep = (_: number) => true) =>
    logDoubts(
      logOf(
        lines(
          't [s],E [Wh]',
          count(60)
            .map((i) => `${10 * i},${cells[i]}`)
            .filter((_, i) => keep(i)),
        ),
      ),
    );
  const clean = count(60).map(counter);
  it('is clean', () => expect(log(clean)).toEqual([]));
  it('jumps at its end', () =>
    expect(log(clean.map((cell, i) => (i === 59 ? '900.0' : cell)))).toEqual([
      expect.stringMatching(
        /^The energy counter jumps by 800 Wh at 9:50 after the start, for which 320 times the power/,
      ),
    ]));
  it('has a gap, or a hole', () => {
    expect(log(clean, (i) => i < 20 || i > 31)).toEqual([
      'The log has 1 gap of more than ten intervals, the longest of 130 s from 3:10 to 5:20 after the start.',
    ]);
    expect(log(clean, (i) => i < 20 || i > 22)).toEqual([
      expect.stringMatching(
        /^Rows are missing: 1 interval of more than the usual 10 s, the longest of 40 s from 3:10 to 3:50 /,
      ),
    ]);
  });
  it('rises once', () =>
    expect(log(clean.map((_, i) => (i < 5 ? '0.0' : i < 11 ? '0.1' : '2.6')))).toEqual([
      expect.stringMatching(/^The whole heating is one rise of the energy counter, at 1:50 after the start/),
    ]));
  it('is in another unit', () => {
    const [doubt] = logDoubts(
      logOf(
        lines(
          't [s],E [kWh]',
          clean.map((cell, i) => `${10 * i},${cell}`),
        ),
      ),
    );
    expect(doubt).toBe('The heater draws 900 kW, more than any socket gives: is the unit right?');
  });
});

describe('a counter beside the power', () => {
  it('goes on while the power shows 0 W', () => {
    const rows = count(60).map((i) => `${10 * i},${i >= 10 && i < 30 ? 900 : 0},${counter(i)}`);
    expect(logDoubts(logOf(lines('t [s],P [W],E [Wh]', rows)))).toEqual([
      expect.stringMatching(
        /^Over the whole log the integral of the power is 5\d Wh, the counter rose by 100 Wh: they differ by 5\d Wh/,
      ),
    ]);
  });
  it('never rises', () => {
    const rows = count(60).map((i) => `${10 * i},${isOn(i) ? 900 : 0},${i === 0 ? '7.1' : '7.2'}`);
    for (const doubt of logDoubts(logOf(lines('t [s],P [W],E [Wh]', rows))))
      expect(doubt).not.toMatch(/Infinity|NaN/);
  });
});

describe('times', () => {
  it('closer than the mains swings', () =>
    expect(logDoubts(powerLog(count(60).map((i) => [0.004 * i, isOn(i) ? 900 : 1])))).toEqual([
      'The readings are only 4 ms apart, less than half a period of the mains: is the unit of the time right?',
    ]));
  it('of many years', () =>
    expect(
      logDoubts(
        powerLog([
          [0, 900],
          [1e9, 900],
        ]),
      ),
    ).toEqual([expect.stringMatching(/^The times go over 31\.6 years: /)]));
  it('that leave rows out where each is a mean', () => {
    const rows = count(60)
      .filter((i) => i !== 30)
      .map((i) => [10 * i, isOn(i) ? 900 + (i % 3) : 1] as const);
    expect(logDoubts(powerLog(rows, 'Mean power [W]'))).toEqual([
      expect.stringMatching(/^Rows are missing: 1 interval between readings is longer than the usual 10 s\./),
    ]);
    expect(logDoubts(powerLog(rows))).toEqual([]);
  });
  it('that jump while the power is not known', () =>
    expect(
      logDoubts(
        powerLog([
          [0, 900],
          [10, ''],
          [20, ''],
          [30, ''],
          [3600, ''],
          [3610, 901],
        ]),
      ),
    ).toEqual([
      'The log has 1 gap of more than ten intervals, the longest of 3610 s from 0 s to 1:00:10 after the start.',
    ]));
});

describe('a power', () => {
  it('in the wrong unit', () =>
    expect(
      logDoubts(
        powerLog(
          count(60).map((i) => [10 * i, isOn(i) ? 900 : 1]),
          'P [kW]',
        ),
      ),
    ).toEqual(['The heater draws 900 kW, more than any socket gives: is the unit right?']));
  it('that is on for one reading in all', () => {
    const log = (rows: number) => powerLog(count(rows).map((i) => [10 * i, i === 4 ? 900 : 1]));
    expect(logDoubts(log(8))).toEqual([
      'The whole heating is one reading, of 900 W at 40 s after the start: a heating too short for this log, or no heating at all.',
    ]);
    expect(logSummary(log(60)).warnings).toEqual([
      expect.stringMatching(/its power stays below 10 W but for single readings of up to 900 W\./),
    ]);
  });
  it('that comes on once more for one reading', () =>
    expect(logDoubts(powerLog(count(60).map((i) => [10 * i, isOn(i) || i === 57 ? 900 : 1])))).toEqual([
      expect.stringMatching(/^Within the heating the power comes on for only 1 reading at 9:30 /),
    ]));
  // Of the ten rows the last stands beside the switching of volts and amps, and is not looked at.
  it('that is zero while volts and amps go on', () => {
    const rows = count(60).map((i) => `${10 * i},${isOn(i) && i < 40 ? 897 : 0},230,${isOn(i) ? 3.9 : 0}`);
    expect(logDoubts(logOf(lines('t [s],P [W],U [V],I [A]', rows)))).toEqual([
      expect.stringMatching(
        /^In 9 rows the power doesn’t go with volts and amps as in the others: it is −100 % off at 6:40 /,
      ),
    ]);
  });
  it('made from volts that are lost while the amps go on', () => {
    const rows = count(60).map((i) => `${10 * i},${i < 30 ? 230 : 0},${isOn(i) ? 3.9 : 0}`);
    expect(logDoubts(logOf(lines('t [s],U [V],I [A]', rows)))).toEqual([
      'In 20 rows a current flows without a voltage, which cannot be: 3.9 A at 5:00 after the start. What passed there is not in the energy.',
    ]);
  });
  it('that is missing beside volts', () =>
    expect(logSummary(logOf('t [s],U [V]\n0,230\n10,231\n')).warnings).toEqual([
      expect.stringMatching(/^The export has no power: /),
    ]));
});

describe('headers against units and cells', () => {
  it.each(['P [Wh]', 'Power (V)', 'Leistung [A]'])('%s may be either', (header) =>
    expect(errorOf(() => logOf(`t [s],${header}\n0,900\n10,901\n`)).code).toBe('log-two-readings'),
  );
  it('a unit over words', () =>
    expect(logOf('t [s],P [W],E [Wh]\n0,900,ok\n10,901,ok\n').warnings).toEqual([
      '"E [Wh]" names the unit Wh, but its cells hold no numbers ("ok"); no energy was read from it.',
    ]));
});

describe('a file on disk', () => {
  const open = (text: string) => {
    const path = join(folder, 'export.csv');
    writeFileSync(path, text);
    return openExport(path, { inMemoryBytes: 0, helpers: 0 });
  };
  it('whose last number is cut off, at a time that goes back', async () => {
    const log = await open('time_s,P [W]\n0,900.1\n1,901.2\n20,902.3\n3,90');
    expect(log).toBeInstanceOf(LogFile);
    expect(log.warnings).toEqual([expect.stringMatching(/^The last number of line 5 is cut off/)]);
    // (900.1 + 901.2)/2 W for 1 s and (901.2 + 902.3)/2 W for 19 s, in watt-hours.
    expect(logSummary(log).energyWh).toBeCloseTo((900.65 + 19 * 901.75) / 3600, 9);
  });
  it('whose only row has no end', async () => {
    expect((await open('Time\tVoltage\tCurrent\nmin\tV\tmA\n0\t230.0\t39')).rows).toBe(1);
  });
});
