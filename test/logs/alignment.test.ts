import { describe, expect, it } from 'vitest';
import { alignLogs, timeInA } from '../../src/logs/index.js';
import { errorOf, powerLog } from './exportOf.js';
import { draws, logFrom, quickPower, seconds } from './simulated.js';

/** A log of one reading every `everyS`, on between the given moments. */
const switching = (everyS: number, count: number, ...on: (readonly [number, number])[]) =>
  powerLog(
    seconds(count).map((i) => {
      const t = i * everyS;
      return [t, on.some(([from, to]) => t >= from && t < to) ? 900 : 1] as const;
    }),
  );

describe('two clocks', () => {
  it('stand apart by what their switchings say', () => {
    const a = switching(1, 400, [100, 300]);
    const b = switching(1, 400, [60, 260]);
    const clocks = alignLogs(a, b);
    // Gates 40 ± 1 s at both switchings, 200 s apart: the middle of the polygon is 40 s and no drift.
    expect(clocks.offsetS).toBeCloseTo(40, 8);
    expect(clocks.driftPpm).toBeCloseTo(0, 6);
    expect(clocks.atS).toBe(159.5);
    // A parallelogram with both diagonals along the axes (offset ±1 s at no drift, drift ±1 s/100 s at no offset):
    // u of either axis is its half-diagonal over √6. The limit of 1 % just touches the corner of the drift.
    expect(clocks.offsetUS).toBeCloseTo(1 / Math.sqrt(6), 6);
    expect(clocks.driftUPpm).toBeCloseTo(1e4 / Math.sqrt(6), 2);
    expect(clocks.edges).toHaveLength(2);
    expect(clocks.evidence).toBe(
      '2 switchings in both logs, seen by power in the first and by power in the second',
    );
  });
  it('show no drift by one switching, which isn’t zero', () => {
    const a = switching(2, 200, [100, 1e9]);
    const b = switching(4, 200, [40, 1e9]);
    const clocks = alignLogs(a, b);
    // 98 to 100 s in the first, 36 to 40 s in the second.
    expect(clocks).toMatchObject({ offsetS: 61, atS: 38, driftPpm: null, driftUPpm: null });
    expect(clocks.offsetUS).toBeCloseTo(Math.hypot(2, 4) / Math.sqrt(12), 10);
    expect(timeInA(clocks, 38)).toEqual({ timeS: 99, standardUncertaintyS: clocks.offsetUS });
    expect(timeInA(clocks, 1000)).toEqual({ timeS: 1061, standardUncertaintyS: null });
  });
  it('are found where one log holds a part of the other', () => {
    const cycles = [
      [100, 150],
      [230, 300],
      [420, 440],
      [600, 680],
      [800, 890],
    ] as const;
    const a = switching(1, 1000, ...cycles);
    const b = switching(1, 500, ...cycles.slice(1, 4).map(([on, off]) => [on - 200, off - 200] as const));
    const clocks = alignLogs(a, b);
    expect(clocks.edges).toHaveLength(6);
    expect(Math.abs(clocks.offsetS - 200)).toBeLessThan(1);
  });
  it('of a regular thermostat in part are not settled', () => {
    const cycles = seconds(6).map((k) => [100 + 100 * k, 130 + 100 * k] as const);
    const a = switching(1, 800, ...cycles);
    const b = switching(1, 300, ...cycles.slice(1, 3).map(([on, off]) => [on - 150, off - 150] as const));
    expect(errorOf(() => alignLogs(a, b)).code).toBe('log-edges-ambiguous');
  });
  it('of different heatings are refused', () => {
    const error = errorOf(() => alignLogs(switching(1, 400, [100, 300]), switching(1, 400, [100, 250])));
    expect(error.code).toBe('log-edges-differ');
    expect(error.message).toMatch(/2 switchings in the first and 2 in the second/);
  });
  it.each([
    ['standby only', switching(1, 100)],
    ['on all the time', switching(1, 100, [0, 1e9])],
    [
      'a temperature that stands',
      logFrom({ timesS: seconds(100).map((i) => 10 * i), celsius: seconds(100).map(() => 20) }),
    ],
  ])('need a switching: %s', (_name, log) => {
    const error = errorOf(() => alignLogs(switching(1, 400, [100, 300]), log));
    expect(error.code).toBe('log-no-edges');
    expect(error.message).toMatch(/the second log/);
  });
});

/** Offset and drift that were found, less the true ones, in their uncertainties. */
function trial(random: () => number) {
  const drift = 400e-6 * (2 * random() - 1);
  const [startA, startB] = [0, 100 * (random() - 0.5)];
  const switches: number[] = [];
  for (let t = 200 + 20 * random(); t < 3000; t += 100 + 400 * random()) switches.push(t);
  if (switches.length % 2 === 1) switches.pop();
  const isOn = (t: number) => switches.filter((each) => each <= t).length % 2 === 1;
  const log = (everyS: number, trueTime: (t: number) => number) => {
    const times = seconds(Math.floor(3400 / everyS)).map((i) => i * everyS);
    return quickPower(
      times,
      times.map((t) => (isOn(trueTime(t)) ? 900 : 1)),
    );
  };
  // The first sample of each comes at any moment of its interval.
  const [everyA, everyB] = [1 + 4 * random(), 1 + 9 * random()];
  const [phaseA, phaseB] = [everyA * random(), everyB * random()];
  const a = log(everyA, (t) => startA + phaseA + t);
  const b = log(everyB, (t) => startB + phaseB + (1 + drift) * t);
  const clocks = alignLogs(a, b);
  const offsetS = startB + phaseB - startA - phaseA + drift * clocks.atS;
  return {
    offset: (clocks.offsetS - offsetS) / clocks.offsetUS,
    drift: (clocks.driftPpm! - 1e6 * drift) / clocks.driftUPpm!,
  };
}

describe('clocks with a known offset and drift', () => {
  const random = draws(21);
  const trials = seconds(400).map(() => trial(random));
  // Three standard deviations of a share of 0.95 in 400 trials: 0.033.
  it.each(['offset', 'drift'] as const)('two standard uncertainties hold the true %s in 95 %', (what) => {
    const within = trials.filter((each) => Math.abs(each[what]) <= 2).length;
    expect(within / 400).toBeGreaterThan(0.95 - 0.033);
  });
  it('the uncertainty is not far too wide either: the errors use half of it', () => {
    const rms = Math.sqrt(trials.reduce((sum, { offset }) => sum + offset ** 2, 0) / 400);
    expect(rms).toBeGreaterThan(0.5);
  });
});

describe('a meter and a thermometer', () => {
  it('two standard uncertainties hold the true offset in 95 %, whatever the lag of the load', () => {
    const random = draws(22);
    let within = 0;
    for (let n = 0; n < 200; n++) {
      const [lagS, offsetS, onS, offS] = [100 * random(), 300 * (random() - 0.5), 600 + 60 * random(), 2700];
      const power = seconds(3600).map((t) => (t >= onS && t < offS ? 900 : 1));
      const b = seconds(400).map((i) => 10 * i);
      // The rate follows the heater with a time constant: what it lacks at first comes after switch-off.
      const ramp = (t: number) => (t <= 0 ? 0 : t - lagS * (1 - Math.exp(-t / lagS)));
      const celsius = b.map((t) => {
        const own = t + offsetS;
        const noise = 0.05 * (random() + random() - 1);
        return Number((20 + 0.02 * (ramp(own - onS) - ramp(own - offS)) + noise).toFixed(1));
      });
      const clocks = alignLogs(quickPower(seconds(3600), power), logFrom({ timesS: b, celsius }));
      if (Math.abs(clocks.offsetS - offsetS) <= 2 * clocks.offsetUS) within++;
    }
    // Three standard deviations of a share of 0.95 in 200 trials: 0.046.
    expect(within / 200).toBeGreaterThan(0.95 - 0.046);
  });
});
