import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { vapourTemperature } from '../../src/evaluation/index.js';
import { saturationPressurePa } from '../../src/water/index.js';
import { kelvin } from './dairy.js';

interface Course {
  readonly timesS: readonly number[];
  readonly temperaturesK: readonly number[];
}

/** ∫T·w dt/∫w dt with w = max(0, p_sat(T) − 0.5·p_sat(Ta)), by 2000 trapezoids for each straight line. */
function integral({ timesS, temperaturesK }: Course, ambientK: number): number {
  const room = 0.5 * saturationPressurePa(ambientK);
  const weight = (k: number) => Math.max(0, saturationPressurePa(k) - room);
  let below = 0;
  let above = 0;
  const parts = 2000;
  for (let i = 1; i < timesS.length; i++) {
    const [from, to] = [temperaturesK[i - 1]!, temperaturesK[i]!];
    const step = (timesS[i]! - timesS[i - 1]!) / parts;
    for (let part = 0; part <= parts; part++) {
      const temperature = from + ((to - from) * part) / parts;
      const factor = part === 0 || part === parts ? step / 2 : step;
      below += factor * weight(temperature);
      above += factor * weight(temperature) * temperature;
    }
  }
  return above / below;
}

const course = fc
  .array(fc.record({ spanS: fc.integer({ min: 1, max: 3000 }), celsius: fc.integer({ min: 15, max: 95 }) }), {
    minLength: 2,
    maxLength: 8,
  })
  .map((points) => {
    let time = 0;
    const timesS = points.map(({ spanS }) => {
      time += spanS;
      return time;
    });
    return { timesS, temperaturesK: points.map(({ celsius }) => kelvin(celsius)) };
  });

describe('the temperature at which steam leaves', () => {
  // The function takes the middle of pieces of 1 K at most, which leaves (w·(T − T̄))''/24 of each: 2·w' + w''·(T − T̄).
  // Warmer than the room w' is at most 12 % and w'' at most 0.7 % of w, T − T̄ at most 70 K: 0.24/24 + 0.5/24, 0.03 K.
  it('is the weighted mean of a numerical integral', () => {
    fc.assert(
      fc.property(course, fc.integer({ min: 5, max: 25 }), (given, ambientC) => {
        fc.pre(Math.min(...given.temperaturesK) >= kelvin(ambientC));
        const found = vapourTemperature(given, kelvin(ambientC));
        expect(Math.abs(found - integral(given, kelvin(ambientC)))).toBeLessThan(0.03);
      }),
      { seed: 20_261_005, numRuns: 200 },
    );
  });
  it('lies far above the mean over time', () => {
    const heating = { timesS: [0, 1000], temperaturesK: [kelvin(20), kelvin(80)] };
    expect(vapourTemperature(heating, kelvin(20)) - kelvin(50)).toBeGreaterThan(12);
  });
  it('does not hang on how finely a straight course is told', () => {
    const coarse = { timesS: [0, 600], temperaturesK: [kelvin(20), kelvin(80)] };
    const times = Array.from({ length: 601 }, (_, i) => i);
    const fine = { timesS: times, temperaturesK: times.map((t) => kelvin(20 + t / 10)) };
    expect(vapourTemperature(coarse, 293.15)).toBeCloseTo(vapourTemperature(fine, 293.15), 2);
  });
  it('takes a room of 20 °C where nobody read it', () => {
    const heating = { timesS: [0, 1000], temperaturesK: [kelvin(20), kelvin(60)] };
    expect(vapourTemperature(heating, null)).toBe(vapourTemperature(heating, kelvin(20)));
  });
  it('is that of the end where it was too cold for any', () =>
    expect(vapourTemperature({ timesS: [0, 10], temperaturesK: [275, 278] }, kelvin(30))).toBe(278));
  it('leaves out rows without a temperature and times that stand still', () => {
    const holed = {
      timesS: [0, 500, 500, 700, 1000],
      temperaturesK: [kelvin(20), kelvin(50), kelvin(50), Number.NaN, kelvin(80)],
    };
    const first = { timesS: [0, 500], temperaturesK: [kelvin(20), kelvin(50)] };
    expect(vapourTemperature(holed, kelvin(20))).toBeCloseTo(vapourTemperature(first, kelvin(20)), 12);
  });
});
