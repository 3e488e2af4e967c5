import { describe, expect, it } from 'vitest';
import { turningPoint } from '../../src/fitting/index.js';

function randomNumbers(seed: number) {
  let state = seed;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t ^= t + Math.imul(t ^ (t >>> 7), 61 | t);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal };
}

interface Overshoot {
  /** Time constant of the heater body giving off its heat, s. */
  readonly tauS: number;
  /** Fall of the cooling load, K/s. */
  readonly fallKPerS: number;
  readonly amplitudeK: number;
  readonly lengthS: number;
}

/** Load temperature after switch-off: the body's heat arrives while the room takes some away. */
const temperature = (o: Overshoot, t: number) => 340 - o.amplitudeK * Math.exp(-t / o.tauS) - o.fallKPerS * t;
const topTimeS = (o: Overshoot) => o.tauS * Math.log(o.amplitudeK / o.tauS / o.fallKPerS);
const rounded = (t: number) => Math.round(t * 10) / 10;

/** Mean errors over seeded logs, each with its own phase of sampling and of rounding to 0.1 K. */
function errors(o: Overshoot, intervalS: number, noiseK: number, seed: number, logs: number) {
  const { uniform, normal } = randomNumbers(seed);
  const top = temperature(o, topTimeS(o));
  const sum = { found: 0, error: 0, square: 0, raw: 0, variance: 0, within: 0 };
  for (let log = 0; log < logs; log += 1) {
    const offset = 0.1 * uniform();
    const timesS: number[] = [];
    for (let t = intervalS * uniform(); t < o.lengthS; t += intervalS) timesS.push(t);
    const temperaturesK = timesS.map((t) => rounded(temperature(o, t) + offset + noiseK * normal()));
    const result = turningPoint({ timesS, temperaturesK });
    sum.raw += Math.max(...temperaturesK) - offset - top;
    if (result.verdict !== 'found') continue;
    const error = result.temperatureK! - offset - top;
    sum.found += 1;
    sum.error += error;
    sum.square += error ** 2;
    sum.variance += result.standardUncertainty! ** 2;
    sum.within += Math.abs(error) <= 2 * result.standardUncertainty! ? 1 : 0;
  }
  return {
    found: sum.found,
    bias: sum.error / sum.found,
    rms: Math.sqrt(sum.square / sum.found),
    rawBias: sum.raw / logs,
    statedU: Math.sqrt(sum.variance / sum.found),
    within: sum.within / sum.found,
  };
}

describe('the top of an overshoot, 300 seeded logs rounded to 0.1 K', () => {
  const logs = 300;
  it.each([
    ['1 s, quick', { tauS: 60, fallKPerS: 0.005, amplitudeK: 4, lengthS: 900 }, 1, 0.05, 21],
    ['1 s, quick, noisy', { tauS: 60, fallKPerS: 0.005, amplitudeK: 4, lengthS: 900 }, 1, 0.1, 22],
    ['1 s, slow', { tauS: 150, fallKPerS: 0.003, amplitudeK: 3, lengthS: 1800 }, 1, 0.1, 23],
    ['5 s, slow', { tauS: 300, fallKPerS: 0.002, amplitudeK: 3, lengthS: 3600 }, 5, 0.1, 24],
    ['5 s, quick', { tauS: 60, fallKPerS: 0.005, amplitudeK: 4, lengthS: 900 }, 5, 0.05, 25],
    ['10 s, middling', { tauS: 150, fallKPerS: 0.003, amplitudeK: 3, lengthS: 1800 }, 10, 0.05, 26],
  ] as const)('%s', { timeout: 120_000 }, (_name, overshoot, intervalS, noiseK, seed) => {
    const seen = errors(overshoot, intervalS, noiseK, seed, logs);
    const message = `seed ${seed}: ${JSON.stringify(seen)}`;
    expect(seen.found, message).toBeGreaterThanOrEqual(0.98 * logs);
    // The mean of 300 errors is known to rms/√300, a seventeenth of the rms; the limits are meant for the bias itself,
    // so three of those are left for chance.
    const chance = (3 * seen.rms) / Math.sqrt(seen.found);
    expect(Math.abs(seen.bias) + chance, message).toBeLessThan(0.02);
    expect(Math.abs(seen.bias) + chance, message).toBeLessThan(seen.rawBias / 3);
    // The stated uncertainty is honest: two of them should hold about 95 % of the errors. Choosing the window by the data
    // costs a few per cent; 300 counts have a standard deviation of 1.3 %: 0.95 − 0.04 − 3 · 0.013.
    expect(seen.within, message).toBeGreaterThan(0.87);
    expect(seen.statedU, message).toBeLessThan(2 * seen.rms);
  });

  it('finds the top of a parabola without noise, and the time', () => {
    const timesS = Array.from({ length: 200 }, (_, i) => 5 * i);
    const temperaturesK = timesS.map((t) => 345 - 2e-5 * (t - 432) ** 2);
    const result = turningPoint({ timesS, temperaturesK });
    expect(result.verdict).toBe('found');
    expect(result.temperatureK).toBeCloseTo(345, 9);
    expect(result.timeS).toBeCloseTo(432, 6);
    expect(result.standardUncertainty).toBeLessThan(1e-9);
    expect(result.windowS![0]).toBeLessThan(432);
    expect(result.windowS![1]).toBeGreaterThan(432);
  });

  it('looks only from the given time on', () => {
    const timesS = Array.from({ length: 300 }, (_, i) => 5 * i);
    const hump = (t: number, at: number, height: number) => height * Math.exp(-(((t - at) / 150) ** 2));
    const temperaturesK = timesS.map((t) => 330 + hump(t, 300, 5) + hump(t, 1000, 3));
    expect(turningPoint({ timesS, temperaturesK }).timeS).toBeCloseTo(300, -1);
    const later = turningPoint({ timesS, temperaturesK, fromS: 700 });
    expect(later.timeS).toBeCloseTo(1000, -1);
    expect(later.temperatureK).toBeCloseTo(333, 2);
    expect(later.windowS![0]).toBeGreaterThanOrEqual(700);
  });
});

describe('no turning point', () => {
  const timesS = Array.from({ length: 120 }, (_, i) => 5 * i);
  const logs = 50;
  const verdicts = (shape: (t: number) => number, seed: number) => {
    const { normal } = randomNumbers(seed);
    const counts = new Map<string, number>();
    for (let log = 0; log < logs; log += 1) {
      const temperaturesK = timesS.map((t) => rounded(shape(t) + 0.05 * normal()));
      const { verdict } = turningPoint({ timesS, temperaturesK });
      counts.set(verdict, (counts.get(verdict) ?? 0) + 1);
    }
    return counts;
  };
  // About a dozen windows are tried, each side of each at a chance of 0.001: one log in fifty may be taken wrongly,
  // and two more by chance.
  const most = logs - 3;
  it('while it still rises', () =>
    expect(verdicts((t) => 300 + 0.02 * t, 31).get('still rising at the end')).toBeGreaterThanOrEqual(most));
  it('while it approaches its end from below', () =>
    expect(
      verdicts((t) => 340 - 4 * Math.exp(-t / 200), 32).get('still rising at the end'),
    ).toBeGreaterThanOrEqual(most));
  it('where it only falls', () =>
    expect(verdicts((t) => 340 - 0.005 * t, 33).get('falling from the start')).toBeGreaterThanOrEqual(most));
  it('where it is flat', () =>
    expect(verdicts(() => 340, 34).get('no turning point to be seen')).toBeGreaterThanOrEqual(most));

  it('at times too crowded for a parabola', () => {
    const crowded = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => i * 1e-12);
    const log = { timesS: [...crowded, 1e6, 2e6], temperaturesK: [1, 2, 3, 4, 5, 4, 3, 2, 1, 0] };
    expect(turningPoint(log).temperatureK).toBeNull();
  });

  it('is told with nothing but nulls', () => {
    const nothing = {
      timeS: null,
      temperatureK: null,
      standardUncertainty: null,
      windowS: null,
      points: null,
    };
    expect(turningPoint({ timesS, temperaturesK: timesS.map(() => 340) })).toEqual({
      verdict: 'no turning point to be seen',
      ...nothing,
    });
    const few = { verdict: 'too few points', ...nothing };
    expect(turningPoint({ timesS: [], temperaturesK: [] })).toEqual(few);
    expect(turningPoint({ timesS: [0, 1, 2], temperaturesK: [1, 2, 1] })).toEqual(few);
    expect(turningPoint({ timesS, temperaturesK: timesS, fromS: 570 })).toEqual(few);
    expect(turningPoint({ timesS, temperaturesK: timesS, fromS: 1e6 })).toEqual(few);
  });
});

describe('what is refused', () => {
  it('names the point', () => {
    expect(() => turningPoint({ timesS: [0, 1], temperaturesK: [1] })).toThrow('2 and 1 entries');
    expect(() => turningPoint({ timesS: [0, 1, 1], temperaturesK: [1, 1, 1] })).toThrow(
      'The time of point 3',
    );
    expect(() => turningPoint({ timesS: [0, 1], temperaturesK: [1, Number.NaN] })).toThrow(
      'The temperature of point 2',
    );
  });
});
