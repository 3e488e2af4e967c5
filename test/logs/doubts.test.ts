import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { HeatledgerError } from '../../src/errors/index.js';
import { type Log, logDoubts, readExport } from '../../src/logs/index.js';
import { logOf, powerLog } from './exportOf.js';
import { draws, logFrom, seconds } from './simulated.js';

const times = seconds(1500);
const heats = (t: number) => t >= 100 && t < 1300;
/** A heater of 900 W on a mains that wanders by a percent, in tenths of a watt; 0.4 W standby. */
function wandering(seed: number): number[] {
  const random = draws(seed);
  let volts = 230;
  return times.map((t) => {
    volts += 0.1 * (random() - 0.5) + 0.001 * (230 - volts);
    return heats(t) ? Number((900 * (volts / 230) ** 2 + 0.4 * random()).toFixed(1)) : 0.4;
  });
}
/** What a counter would show that adds up once a second. */
function countedWh(powerW: readonly number[]): number[] {
  let joules = 0;
  return powerW.map((watts) => {
    joules += watts;
    return joules / 3600;
  });
}
const clean = wandering(41);
const changed = (change: (watts: number, t: number) => number, from = clean) =>
  from.map((w, t) => change(w, t));
const doubtsOf = (powerW: readonly number[], stated = {}) =>
  logDoubts(logFrom({ timesS: times, powerW }), stated);

describe('a clean log', () => {
  it.each([41, 42, 43, 44, 45])('gives no doubt, seed %d', (seed) => {
    const powerW = wandering(seed);
    const volts = powerW.map((watts) => Number(Math.sqrt((watts / 900) * 230 ** 2).toFixed(1)));
    const energyWh = countedWh(powerW).map((wattHours) => Number(wattHours.toFixed(2)));
    const currentA = powerW.map((watts, i) => Number((watts / volts[i]!).toFixed(3)));
    expect(logDoubts(logFrom({ timesS: times, powerW, energyWh, voltageV: volts, currentA }))).toEqual([]);
  });
  it.each([
    ['constant to the last digit', times.map((t) => (heats(t) ? 900 : 1))],
    ['of a thermostat', times.map((t) => (heats(t) && t % 60 < 25 ? 900 : 1))],
    [
      'that warms up to a level of its own',
      times.map((t) => (heats(t) ? Math.round(900 - 60 * Math.exp(-t / 200)) : 0)),
    ],
    [
      'of a meter that renews its reading every ten seconds',
      times.map((t) => clean[10 * Math.floor(t / 10)]!),
    ],
  ])('gives none: %s', (_name, powerW) => expect(doubtsOf(powerW)).toEqual([]));

  const folders = ['./corpus/', '../../samples/exports/'].map((path) => new URL(path, import.meta.url));
  const files = folders.flatMap((folder) =>
    readdirSync(folder)
      .filter((name) => name.endsWith('.csv'))
      .map((name) => [name, new URL(name, folder)] as const),
  );
  it.each(files)('gives none: %s', (_name, url) => {
    let log: Log;
    try {
      log = readExport(readFileSync(url), { zone: 'Europe/Vienna' });
    } catch (error) {
      // Some of the corpus are there to be refused.
      if (error instanceof HeatledgerError) return;
      throw error;
    }
    expect(logDoubts(log)).toEqual([]);
  });
});

describe('stuck readings', () => {
  it('of the meter', () => {
    const stuck = changed((watts, t) => (t >= 400 && t < 460 ? clean[400]! : watts));
    expect(doubtsOf(stuck)).toEqual([
      `The meter shows exactly ${clean[400]} W in 60 rows in succession, from 6:40 to 7:39 after the start; elsewhere its readings move. They look stuck.`,
    ]);
  });
  it('of the counter, while the power goes on', () => {
    let joules = 0;
    const energyWh = clean.map((watts, t) => {
      if (t < 500 || t >= 530) joules += watts;
      return Number((joules / 3600).toFixed(2));
    });
    const doubts = logDoubts(logFrom({ timesS: times, powerW: clean, energyWh }));
    // 30 s of about 900 W are 7.5 Wh.
    expect(doubts).toContainEqual(
      expect.stringMatching(/^The energy counter stands still from 8:19 to 8:49 .* 7\.\d+ Wh pass\.$/),
    );
    expect(doubts).toContainEqual(expect.stringMatching(/they differ by 7\.\d+ Wh/));
    expect(doubts).toHaveLength(2);
  });
  const rising = times.map((t) => Number((20 + 0.03 * (Math.min(Math.max(t, 120), 1320) - 120)).toFixed(1)));
  const temperature = (celsius: readonly number[]) =>
    logDoubts(logFrom({ timesS: times, powerW: clean, celsius }));
  it('of the thermometer, which jumps afterwards or never moves again', () => {
    expect(temperature(rising)).toEqual([]);
    // 100 s are 3 K.
    expect(temperature(rising.map((value, t) => (t >= 600 && t < 700 ? rising[600]! : value)))).toEqual([
      expect.stringMatching(/^The temperature stands at 34.4 °C to the last digit from 9:59 to 11:39 /),
    ]);
    expect(temperature(rising.map((value, t) => (t >= 600 ? rising[600]! : value)))).toHaveLength(1);
  });
  it('are not those of water at the boil', () => {
    expect(temperature(rising.map((value) => Math.min(value + 50, 99.6)))).toEqual([]);
  });
});

describe('powers that cannot be', () => {
  it.each([
    [
      'below zero',
      changed((watts, t) => (t === 1400 ? -50 : watts)),
      /^The power is below zero in 1 reading, first at 23:20 /,
    ],
    [
      'ten times too high',
      changed((watts, t) => (t === 700 ? 10 * watts : watts)),
      /^A single reading of the power stands out .* at 11:40 /,
    ],
    ['a blip in standby', changed((watts, t) => (t === 1400 ? 120 : watts)), /120 W beside 0.4 W at 23:20 /],
    [
      'lost for a reading',
      changed((watts, t) => (t === 700 ? 0 : watts)),
      /drops out for only 1 reading at 11:40 /,
    ],
  ])('%s', (_name, powerW, words) => expect(doubtsOf(powerW)).toEqual([expect.stringMatching(words)]));
  it('cut off at the end of the range', () => {
    const cut = changed((watts) => Math.min(watts, 903));
    const atTop = cut.filter((watts) => watts === 903).length;
    expect(atTop).toBeGreaterThan(100);
    expect(doubtsOf(cut)).toEqual([
      expect.stringMatching(`^The power stands at exactly 903 W, its largest value, in ${atTop} readings`),
    ]);
  });
  it('at a range that is stated, or above the rating', () => {
    const full = times.map((t) => (heats(t) ? 3000 : 1));
    expect(doubtsOf(full)).toEqual([]);
    expect(doubtsOf(full, { rangeW: 3000 })).toEqual([
      'The power reaches the end of the meter’s range of 3000 W in 1200 readings, first at 1:40 after the start: the true power may be higher.',
    ]);
    expect(doubtsOf(full, { ratedW: 2000 })).toEqual([
      'The heater draws 3000 W, although it is rated at 2000 W.',
    ]);
    const amps = logFrom({
      timesS: times,
      powerW: full,
      voltageV: times.map(() => 230),
      currentA: full.map((w) => w / 230),
    });
    expect(logDoubts(amps, { rangeA: 16 })).toEqual([]);
    expect(logDoubts(amps, { rangeA: 13 })).toEqual([
      expect.stringMatching(/range of 13 A in 1200 readings/),
    ]);
  });
  it('a step within the heating, as of another setting', () => {
    expect(doubtsOf(changed((watts, t) => (heats(t) && t >= 800 ? watts + 150 : watts)))).toEqual([
      expect.stringMatching(
        /^While the heater is on its power steps from \d+(\.\d)? W to 10\d\d(\.\d)? W at 13:20 /,
      ),
    ]);
  });
  it('a standby that counts', () => {
    const [doubt, ...rest] = doubtsOf(changed((watts, t) => (heats(t) ? watts : 60)));
    expect(rest).toEqual([]);
    // 60 W over the 300 s around the heating are 5 Wh of some 305.
    expect(doubt).toMatch(/a standby of 60 W, (4\.98|4\.99|5) Wh or 1\.6 % of all its energy/);
  });
});

describe('power, volts and amps', () => {
  const volts = times.map(() => 230);
  const amps = (factor: number) => clean.map((watts) => Number(((factor * watts) / 230).toFixed(3)));
  const doubts = (columns: object) =>
    logDoubts(logFrom({ timesS: times, powerW: clean, voltageV: volts, currentA: amps(1), ...columns }));
  it.each([
    ['agree', {}, []],
    ['too little for the power', { currentA: amps(0.5) }, [/100 % above volts times amps, which cannot be/]],
    ['a power factor', { currentA: amps(1.25) }, [/20 % below volts times amps: a power factor of 0.8,/]],
    ['a power factor that explains it', { currentA: amps(1.25), powerFactor: times.map(() => 0.8) }, []],
    [
      'one that doesn’t',
      { currentA: amps(1.25), powerFactor: times.map(() => 0.9) },
      [/11 % below volts times amps times power factor/],
    ],
    [
      'one above 1',
      { powerFactor: times.map((t) => (t === 300 ? 1.2 : 1)) },
      [/above 1 in 1 row, .*1.2 at 5:00/, /In 1 row .* −17 % off at 5:00/],
    ],
    [
      'one row that differs',
      { powerW: changed((watts, t) => (t === 600 ? watts - 300 : watts)) },
      [/^In 1 row the power doesn’t go with volts and amps as in the others: it is −33 % off at 10:00 /],
    ],
  ])('%s', (_name, columns, words) => {
    expect(doubts(columns)).toEqual(words.map((each) => expect.stringMatching(each)));
  });
});

describe('gaps, counters and cycles', () => {
  const rows = (keep: (t: number) => boolean) =>
    powerLog(times.filter(keep).map((t) => [t, clean[t]!] as const));
  it('a gap within the heating', () => {
    const [doubt, ...rest] = logDoubts(rows((t) => t < 500 || t > 520));
    expect(rest).toEqual([]);
    expect(doubt).toMatch(
      /^The log has 1 gap of more than ten intervals, the longest of 22 s from 8:19 to 8:41 after the start\. 1 gap within the heating is bridged by a straight line, which leaves a doubt of 3\.\d Wh/,
    );
  });
  it('a gap outside, and one too long to bridge', () => {
    expect(logDoubts(rows((t) => t < 1350 || t > 1400))).toEqual([
      expect.stringMatching(/None is within the heating\.$/),
    ]);
    expect(logDoubts(rows((t) => t < 500 || t > 700))).toEqual([
      expect.stringMatching(/from 8:19 to 11:41 after the start\.$/),
    ]);
  });
  const counter = (shown: (wattHours: number) => number) => {
    const energyWh = countedWh(clean).map((wattHours) => Number(shown(wattHours).toFixed(2)));
    return logDoubts(logFrom({ timesS: times, powerW: clean, energyWh }));
  };
  it('a counter that runs over, is reset, or falls', () => {
    expect(counter((wattHours) => (9900 + wattHours) % 10000)).toEqual([
      expect.stringMatching(/^The energy counter runs over its last digit: from 9999.* Wh to 0\.\d+ Wh at /),
    ]);
    expect(counter((wattHours) => (wattHours < 150 ? wattHours : wattHours - 150))).toEqual([
      expect.stringMatching(/^The energy counter is set to zero; .* from 149.* Wh to 0\.\d+ Wh at /),
    ]);
    expect(counter((wattHours) => (wattHours < 150 ? wattHours : wattHours - 20))).toEqual([
      expect.stringMatching(/^The energy counter falls, although a counter only rises: from 149/),
    ]);
  });
  it('a heater that switches too fast for the log', () => {
    const fast = times.map((t) => (heats(t) && (t * 0.618) % 1 < 0.5 ? 900 : 1));
    expect(doubtsOf(fast)).toEqual([
      expect.stringMatching(
        /^The heater is on for \d and off for \d readings at a time: it switches too fast/,
      ),
    ]);
  });
  it('none of a log without power', () => {
    expect(logDoubts(logOf('t [s],T [°C]\n0,20\n10,21\n'))).toEqual([]);
  });
});

describe('a log too long to be looked at row by row', () => {
  const rows = 250_000;
  const random = draws(46);
  const at = seconds(rows);
  const isOn = (t: number) => t >= 1000 && t < 240_000;
  const powerW = at.map((t) => (isOn(t) ? 900 + Math.round(20 * random()) / 10 : 0.4));
  /** The same heating with other powers, a counter of steps of 1 Wh and a thermometer of 0.1 K. */
  const long = (change: {
    watts?: (watts: number, t: number) => number;
    stands?: (t: number) => boolean;
    celsius?: (t: number) => number;
  }): Log => {
    const base = logFrom({ timesS: [0, 1], powerW: [0.4, 900.1], energyWh: [0, 1], celsius: [20.1, 20.2] });
    const watts = powerW.map((each, t) => change.watts?.(each, t) ?? each);
    let joules = 0;
    return {
      ...base,
      rows,
      timesS: Float64Array.from(at),
      powerW: Float64Array.from(watts),
      energyJ: Float64Array.from(watts, (each, t) => {
        if (!change.stands?.(t)) joules += each;
        return 3600 * Math.floor(joules / 3600);
      }),
      temperatureK: Float64Array.from(
        at,
        (t) => 273.15 + Math.round(10 * (change.celsius?.(t) ?? rising(t))) / 10,
      ),
    };
  };
  const rising = (t: number) => 20 + 2e-4 * (Math.min(Math.max(t, 1000), 240_000) - 1000);
  it.each([
    ['clean', {}, []],
    [
      'a spike',
      { watts: (w: number, t: number) => (t === 123_456 ? 10 * w : w) },
      [/^A single reading .* at 34:17:36 /],
    ],
    [
      'stuck readings',
      { watts: (w: number, t: number) => (t >= 50_000 && t < 50_060 ? 900.7 : w) },
      [/^The meter shows exactly 900.7 W in 6\d rows in succession, from 13:53:\d\d to 13:54:\d\d /],
    ],
    [
      'a step of power',
      { watts: (w: number, t: number) => (isOn(t) && t >= 100_000 ? w + 200 : w) },
      [/^While the heater is on its power steps from 90\d(\.\d)? W to 110\d W at 27:46:40 /],
    ],
    [
      'a counter that stands',
      { stands: (t: number) => t >= 60_000 && t < 60_400 },
      [
        /^The integral of the power .* They part by \d+ Wh/,
        /^The energy counter stands still from 16:\d\d:\d\d to 16:\d\d:\d\d .* while by the power 10\d Wh pass/,
      ],
    ],
    [
      'a frozen temperature',
      { celsius: (t: number) => rising(t >= 80_000 && t < 100_000 ? 80_000 : t) },
      [/^The temperature stands at 35.8 °C to the last digit from 2\d:/],
    ],
  ])('%s', (_name, change, words) => {
    expect(logDoubts(long(change))).toEqual(words.map((each) => expect.stringMatching(each)));
  });
});
