import { describe, expect, it } from 'vitest';
import { exp, ln } from '../../samples/lib/elementary.mjs';
import { CERTIFICATE, drawInstruments, loggerErrorK } from '../../samples/lib/instruments.mjs';
import { xoshiro128 } from '../../samples/lib/random.mjs';
import {
  airDensity,
  latentHeat,
  saturationPressure,
  waterEnthalpy,
  waterHeatCapacity,
} from '../../samples/lib/water.mjs';

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const variance = (values: readonly number[]) => mean(values.map((value) => (value - mean(values)) ** 2));

describe('the instruments over 400 seeds', () => {
  const drawn = Array.from({ length: 400 }, (_, seed) => drawInstruments(seed));
  const rectangular: [string, number[]][] = [
    ['gain of the meter', drawn.map(({ meter }) => meter.gainError / 0.01)],
    ['scale, empty', drawn.map(({ scale }) => scale.emptyErrorG / 2)],
    ['scale, full', drawn.map(({ scale }) => scale.fullErrorG / 2)],
    ['heat along the stem', drawn.map(({ logger }) => logger.immersionK / 0.05)],
  ];

  it.each(rectangular)('%s is evenly spread within its limits', (_name, values) => {
    expect(Math.min(...values)).toBeGreaterThanOrEqual(-1);
    expect(Math.max(...values)).toBeLessThanOrEqual(1);
    const sorted = [...values].sort((a, b) => a - b);
    const distance = Math.max(
      ...sorted.map((value, i) => Math.max((i + 1) / 400 - (value + 1) / 2, (value + 1) / 2 - i / 400)),
    );
    // Dvoretzky, Kiefer, Wolfowitz, Massart: P(distance > d) ≤ 2·exp(−2·400·d²), 1 in 10 000 at d = 0.111.
    expect(distance).toBeLessThan(0.111);
    // Variance 1/3; that of 400 draws has a standard error of sqrt((1/5 − 1/9)/400) = 0.0149. Five of them.
    expect(Math.abs(variance(values) - 1 / 3)).toBeLessThan(0.075);
  });

  it('empty and full errors of the scale are unrelated', () => {
    const products = drawn.map(({ scale }) => (scale.emptyErrorG * scale.fullErrorG) / 4);
    // Mean 0, standard deviation 1/3 each: five standard errors of 400 are 5/3/20.
    expect(Math.abs(mean(products))).toBeLessThan(5 / 60);
  });

  it.each(CERTIFICATE.points.map((point, i) => [point.atC, point.correctionK, i] as const))(
    'the logger at %d °C errs by minus its correction with half the expanded uncertainty',
    (atC, correctionK, i) => {
      const residuals = drawn.map(({ logger }) => (logger.points[i]!.errorK + correctionK) / 0.05);
      expect(loggerErrorK(drawn[0]!.logger, atC)).toBeCloseTo(drawn[0]!.logger.points[i]!.errorK, 12);
      // Normal, variance 1: five standard errors of the mean (1/20) and of the variance (sqrt(2/400)).
      expect(Math.abs(mean(residuals))).toBeLessThan(5 / 20);
      expect(Math.abs(variance(residuals) - 1)).toBeLessThan(5 * Math.sqrt(2 / 400));
    },
  );
});

describe('the small functions', () => {
  it('exponential and logarithm are those of the machine but for the last bits', () => {
    for (let x = -20; x <= 20; x += 0.37) {
      expect(Math.abs(exp(x) / Math.exp(x) - 1), `exp ${x}`).toBeLessThan(1e-15);
      expect(Math.abs(ln(Math.exp(x)) - Math.log(Math.exp(x))), `ln exp ${x}`).toBeLessThan(4e-15);
    }
  });

  it('xoshiro128** gives the published sequence', () => {
    // Test vector for the state 1, 2, 3, 4, from memory (the fifth number not remembered, so left out).
    const next = xoshiro128(Uint32Array.of(1, 2, 3, 4));
    const drawn = Array.from({ length: 10 }, next);
    expect(drawn.toSpliced(4, 1)).toEqual([
      11520, 0, 5927040, 70819200, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it('water is the water of the steam tables', () => {
    // IAPWS-IF97 saturated liquid, kJ/kg, from memory: 10 °C 42.02, 20 °C 83.92, 50 °C 209.34, 60 °C 251.15, 80 °C 334.95.
    const table: [number, number][] = [
      [10, 42.02],
      [20, 83.92],
      [50, 209.34],
      [60, 251.15],
      [80, 334.95],
    ];
    for (const [fromC, low] of table) {
      for (const [toC, high] of table.filter(([t]) => t > fromC)) {
        // 0.02 % of the rise, the table's rounding, and the pressure (at most 0.1 kJ/kg, nearly the same at both ends).
        const limit = 0.0002 * (high - low) + 0.01 + 0.05;
        expect(Math.abs((waterEnthalpy(toC) - waterEnthalpy(fromC)) / 1000 - (high - low))).toBeLessThan(
          limit,
        );
      }
    }
    for (let t = 5; t < 90; t += 5) {
      const slope = (waterEnthalpy(t + 0.01) - waterEnthalpy(t - 0.01)) / 0.02;
      expect(Math.abs(waterHeatCapacity(t) / slope - 1)).toBeLessThan(1e-7);
    }
    // IAPWS-IF97, from memory: latent heat 2453.5 kJ/kg and pressure 2.3392 kPa at 20 °C; 2382.0 and 12.351 at 50 °C.
    expect(Math.abs(latentHeat(20) / 2453.5e3 - 1)).toBeLessThan(1e-4);
    expect(Math.abs(latentHeat(50) / 2382.0e3 - 1)).toBeLessThan(1e-4);
    expect(Math.abs(saturationPressure(20) / 2339.2 - 1)).toBeLessThan(0.004);
    expect(Math.abs(saturationPressure(50) / 12351 - 1)).toBeLessThan(0.004);
    // Standard atmosphere, from memory: 1.2250 kg/m³ at 0 m and 15 °C; 1.1117 at 1000 m and 8.5 °C.
    expect(airDensity(0, 15)).toBeCloseTo(1.225, 3);
    expect(airDensity(1000, 8.5)).toBeCloseTo(1.1117, 3);
  });
});
