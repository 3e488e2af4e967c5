import { describe, expect, it } from 'vitest';
import { logSummary, phases, readExport } from '../../src/logs/index.js';
import { corpus, errorOf, powerLog } from './exportOf.js';
import { logFrom, seconds } from './simulated.js';

const times = seconds(721).map((i) => 10 * i);
/** 20 °C, from 600 s 0.02 K/s up to 68 °C at 3000 s, level until 3600 s, then 0.005 K/s down. */
const celsius = times.map((t) => {
  if (t <= 600) return 20;
  if (t <= 3000) return 20 + 0.02 * (t - 600);
  return t <= 3600 ? 68 : 68 - 0.005 * (t - 3600);
});
const shown = celsius.map((value) => Number(value.toFixed(1)));
const powerW = times.map((t) => (t >= 600 && t < 3000 ? 900 : 1));
const spans = (found: ReturnType<typeof phases>) =>
  found.phases.map(({ name, fromS, toS }) => [name, fromS, toS]);

describe('the phases of a test', () => {
  it('are found from power and temperature of one log', () => {
    const found = phases(logFrom({ timesS: times, powerW, celsius: shown }));
    // Switching between 590 and 600 s and between 2990 and 3000 s; means of 60 s are counted from there, so the
    // first one that falls is that from 3595 s to 3655 s.
    expect(spans(found)).toEqual([
      ['fore-period', 0, 595],
      ['heating', 595, 2995],
      ['after-period', 2995, 3595],
      ['cool-down', 3595, 7200],
    ]);
    expect(found.absent).toEqual([]);
    expect(found.phases[1]!.evidence).toMatch(/at least 90.9 W \(±5 s\)/);
    expect(found.phases[3]!.evidence).toMatch(/highest of 68 °C \(common practice, no source\)/);
  });
  it('take the pauses of a thermostat into the heating', () => {
    const cycling = times.map((t) => (t >= 600 && t < 3000 && t % 300 < 200 ? 900 : 1));
    expect(spans(phases(logFrom({ timesS: times, powerW: cycling })))[1]).toEqual([
      'heating',
      595,
      2995 - 100,
    ]);
  });
  it('take the temperature of another log whose clock is aligned', () => {
    const log = logFrom({ timesS: times, powerW });
    // The thermometer's clock began 95 s later: its 0 is 95 s of the meter.
    const other = logFrom({
      timesS: times,
      celsius: times.map((t) => shown[Math.min(720, (t + 100) / 10)]!),
    });
    const alignment = { offsetS: 100, offsetUS: 1, atS: 0, driftPpm: 0, driftUPpm: 1 };
    const found = phases(log, { temperatureLog: { log: other, alignment } });
    expect(spans(found)[3]).toEqual(['cool-down', 3595, 7200]);
  });
  it('need to know how the clocks stand', () => {
    const log = logFrom({ timesS: times, powerW });
    const found = phases(log, { temperatureLog: { log: logFrom({ timesS: times, celsius: shown }) } });
    expect(found.absent).toEqual([{ name: 'cool-down', why: expect.stringMatching(/clocks/) }]);
  });
  it('take two clocks that are known at their word', () => {
    const stamp = (t: number) => new Date(Date.UTC(2026, 0, 5, 8) + 1000 * t).toISOString();
    const text = (head: string, values: readonly number[], laterS: number) =>
      new TextEncoder().encode(
        `time,${head}\n${times.map((t, i) => `${stamp(t + laterS)},${values[i]}`).join('\n')}\n`,
      );
    const log = readExport(text('P [W]', powerW, 0));
    const other = readExport(text('T [°C]', shown, 60));
    // All of the temperature comes 60 s later.
    expect(spans(phases(log, { temperatureLog: { log: other } }))[3]).toEqual(['cool-down', 3655, 7200]);
  });
  it('follow limits that are stated, and say so', () => {
    const log = logFrom({ timesS: times, powerW, celsius: shown });
    const found = phases(log, { limits: { heatingFromS: 610, coolDownFromS: 4000, coolDownToS: 5000 } });
    expect(spans(found)).toEqual([
      ['fore-period', 0, 610],
      ['heating', 610, 2995],
      ['after-period', 2995, 4000],
      ['cool-down', 4000, 5000],
    ]);
    expect(found.phases[1]!.evidence).toMatch(/^beginning stated, to the last one/);
    expect(found.phases[3]!.evidence).toBe('beginning stated');
  });
  it('with both limits stated need no heating to be found', () => {
    const log = logFrom({ timesS: times, powerW: times.map(() => 0) });
    expect(spans(phases(log, { limits: { heatingFromS: 100, heatingToS: 200 } }))[1]).toEqual([
      'heating',
      100,
      200,
    ]);
  });
  it.each([
    [{ heatingFromS: 3000, heatingToS: 600 }],
    [{ heatingFromS: -1 }],
    [{ coolDownFromS: 600 }],
    [{ coolDownToS: 7201 }],
    [{ coolDownFromS: 5000, coolDownToS: 5000 }],
  ])('refuse limits that are out of order: %j', (limits) => {
    const log = logFrom({ timesS: times, powerW, celsius: shown });
    expect(errorOf(() => phases(log, { limits })).code).toBe('log-limits-bad');
  });
  it('that are not in the log are absent, not zero long', () => {
    const found = phases(powerLog(seconds(50).map((t) => [t, 900] as const)));
    expect(spans(found)).toEqual([['heating', 0, 49]]);
    expect(found.absent.map(({ name }) => name)).toEqual(['fore-period', 'after-period', 'cool-down']);
  });
  it('have no cool-down where the temperature has not turned', () => {
    const log = logFrom({
      timesS: times.slice(0, 340),
      powerW: powerW.slice(0, 340),
      celsius: shown.slice(0, 340),
    });
    expect(phases(log).absent).toEqual([{ name: 'cool-down', why: expect.stringMatching(/fall steadily/) }]);
  });
  it('are none where nothing is heated', () => {
    const found = phases(powerLog(seconds(50).map((t) => [t, 1] as const)));
    expect(found.phases).toEqual([]);
    expect(found.absent).toHaveLength(4);
  });
});

describe('the phases of a temperature alone', () => {
  it('come from where it rises', () => {
    const found = phases(logFrom({ timesS: times, celsius: shown }));
    // Means of 60 s from 0: the rise begins with the piece from 600 s and ends with that to 3000 s.
    const [, heating, after, cooling] = found.phases;
    expect(found.phases.map(({ name }) => name)).toEqual([
      'fore-period',
      'heating',
      'after-period',
      'cool-down',
    ]);
    expect(Math.abs(heating!.fromS - 600)).toBeLessThanOrEqual(30);
    expect(Math.abs(heating!.toS - 3000)).toBeLessThanOrEqual(30);
    expect(Math.abs(cooling!.fromS - 3600)).toBeLessThanOrEqual(60);
    expect(after!.toS).toBe(cooling!.fromS);
    expect(heating!.evidence).toMatch(/48 K in all/);
  });
  it('are none where it rises by little', () => {
    const found = phases(logFrom({ timesS: times, celsius: times.map((_, i) => 20 + 0.1 * (i % 3)) }));
    expect(found.phases).toEqual([]);
    expect(found.absent[1]!.why).toMatch(/no more than/);
  });
  it('are none of a few readings', () => {
    expect(phases(readExport(corpus('temperature-only.csv'))).absent[1]!.why).toMatch(/fewer than 8 means/);
  });
});

describe('the summary', () => {
  it('has phases, counter, standby, gaps and cycles', () => {
    const summary = logSummary(logFrom({ timesS: times, powerW, celsius: shown }));
    expect(summary.phases.map(({ name }) => name)).toEqual([
      'fore-period',
      'heating',
      'after-period',
      'cool-down',
    ]);
    expect(summary).toMatchObject({
      counterEnergyWh: null,
      standbyW: 1,
      gaps: { count: 0, longestS: 0 },
      dutyCycle: null,
      energyWh: 600,
    });
  });
  it('has the energy of the counter', () => {
    const summary = logSummary(readExport(corpus('counter-only.csv')));
    expect(summary.counterEnergyWh).toBeCloseTo(600, 8);
    expect(summary.standbyW).toBeNull();
  });
});
