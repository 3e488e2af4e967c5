import { describe, expect, it } from 'vitest';
import {
  cochran,
  cochranCritical,
  consistencyTest,
  grubbs,
  grubbsCritical,
  mandel,
  mandelCritical,
  weightedMean,
} from '../../src/statistics/index.js';
import { cochranMandelTable, grubbsTable } from '../reference/outliers.js';
import { gravitation } from '../reference/statistics.js';
import { normalNumbers } from './normalNumbers.js';

describe("critical values of Grubbs' test", () => {
  it.each(grubbsTable)('of $n values', ({ n, two, one, published }) => {
    [0.05, 0.01].forEach((significance, column) => {
      const ofTwo = grubbsCritical(n, significance, 'two');
      expect(ofTwo).toBeCloseTo(two[column]!, 6);
      expect(grubbsCritical(n, significance, 'one-high')).toBeCloseTo(one[column]!, 6);
      expect(grubbsCritical(n, significance, 'one-low')).toBe(grubbsCritical(n, significance, 'one-high'));
      // The standard's last digit is cut here and rounded there: one unit of it.
      if (published) expect(Math.abs(ofTwo - published[column]!)).toBeLessThan(0.001);
    });
  });
  it('never exceed the largest distance there can be', () => {
    for (const n of [3, 4, 10]) {
      expect(grubbsCritical(n, 1e-12, 'two')).toBeLessThanOrEqual((n - 1) / Math.sqrt(n));
      expect(grubbsCritical(n, 1e-12, 'two')).toBeCloseTo((n - 1) / Math.sqrt(n), 2);
    }
  });
  it('are refused for fewer than three values or a significance that is none', () => {
    expect(() => grubbsCritical(2, 0.05, 'two')).toThrow('at least 3, but it is 2');
    expect(() => grubbsCritical(4.5, 0.05, 'two')).toThrow('but it is 4.5');
    for (const significance of [0, 1, 5, Number.NaN])
      expect(() => grubbsCritical(5, significance, 'two')).toThrow('(5 % is 0.05)');
  });
});

describe("Grubbs' test", () => {
  // NIST/SEMATECH e-Handbook 1.3.5.17.1, uranium data: G = 2.4687, critical (one-sided, 5 %) 2.032. From memory.
  const uranium = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
  it('has the example of the e-Handbook', () => {
    const high = grubbs({ values: uranium, sides: 'one-high', significance: 0.05 });
    expect(high.statistic).toBeCloseTo(2.4687, 3);
    expect(high.critical).toBeCloseTo(2.032, 3);
    expect(high).toMatchObject({ suspectedIndex: 7, outlying: true, n: 8 });
    expect(grubbs({ values: uranium, sides: 'two', significance: 0.05 })).toMatchObject({
      suspectedIndex: 7,
    });
    expect(grubbs({ values: uranium, sides: 'one-low', significance: 0.05 })).toMatchObject({
      suspectedIndex: 0,
      outlying: false,
    });
  });
  it('has a p value that is the significance whose critical value is the statistic', () => {
    const normal = normalNumbers(3);
    for (let trial = 0; trial < 200; trial += 1)
      for (const sides of ['two', 'one-high', 'one-low'] as const) {
        const values = Array.from({ length: 3 + (trial % 9) }, normal);
        const { statistic, pValueBound, n, outlying } = grubbs({ values, sides, significance: 0.2 });
        expect(outlying).toBe(pValueBound < 0.2);
        if (pValueBound < 0.99) expect(grubbsCritical(n, pValueBound, sides)).toBeCloseTo(statistic, 9);
      }
  });
  it('gives a false alarm in the stated share of normal samples', () => {
    // Exact for six values at 5 %, where no two can exceed the critical value together. 20,000 samples: a standard
    // deviation of √(0.05·0.95/20000) = 0.0015; four of them.
    const normal = normalNumbers(17);
    const samples = 20_000;
    const alarms = { two: 0, 'one-high': 0, 'one-low': 0 };
    for (let k = 0; k < samples; k += 1) {
      const values = Array.from({ length: 6 }, normal);
      for (const sides of ['two', 'one-high', 'one-low'] as const)
        if (grubbs({ values, sides, significance: 0.05 }).outlying) alarms[sides] += 1;
    }
    const four = 4 * Math.sqrt((0.05 * 0.95) / samples);
    for (const count of Object.values(alarms)) expect(Math.abs(count / samples - 0.05)).toBeLessThan(four);
  });
  it('suspects nothing where all values are the same', () => {
    expect(
      grubbs({ values: [0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1], sides: 'two', significance: 0.05 }),
    ).toMatchObject({
      statistic: 0,
      pValueBound: 1,
      suspectedIndex: null,
      outlying: false,
    });
  });
  it('has a p value of zero to within rounding where all others are the same', () => {
    const result = grubbs({ values: [1, 1, 1, 1, 9], sides: 'two', significance: 0.001 });
    expect(result.statistic).toBeCloseTo(4 / Math.sqrt(5), 12);
    expect(result.outlying).toBe(true);
    expect(result.pValueBound).toBeLessThan(1e-9);
  });
  it('refuses what it cannot judge', () => {
    expect(() => grubbs({ values: [1, 2], sides: 'two', significance: 0.05 })).toThrow(
      'at least 3 values, but got 2',
    );
    expect(() => grubbs({ values: [1, 2, Number.NaN], sides: 'two', significance: 0.05 })).toThrow('Value 3');
  });
});

describe("Cochran's and Mandel's statistics", () => {
  it.each(cochranMandelTable)('%d groups of %d: the table', (p, n, c5, c1, h5, h1, k5, k1) => {
    expect(cochranCritical(p, n, 0.05)).toBeCloseTo(c5, 5);
    expect(cochranCritical(p, n, 0.01)).toBeCloseTo(c1, 5);
    const [five, one] = [mandelCritical(p, n, 0.05), mandelCritical(p, n, 0.01)];
    expect([five.h, one.h].map((x) => x.toFixed(5))).toEqual([h5, h1].map((x) => x.toFixed(5)));
    expect([five.k, one.k].map((x) => x.toFixed(5))).toEqual([k5, k1].map((x) => x.toFixed(5)));
  });
  it('Cochran: a p value that is the significance whose critical value is the statistic', () => {
    const result = cochran({ variances: [1, 1.2, 0.9, 6, 1.1], replicates: 3, significance: 0.05 });
    expect(result).toMatchObject({ suspectedIndex: 3, outlying: false });
    expect(result.statistic).toBeCloseTo(6 / 10.2, 12);
    expect(cochranCritical(5, 3, result.pValueBound)).toBeCloseTo(result.statistic, 10);
    expect(cochran({ variances: [0, 0, 4], replicates: 3, significance: 0.05 })).toMatchObject({
      statistic: 1,
      pValueBound: 0,
    });
  });
  it('Mandel: h and k written out', () => {
    const groups = [
      [1, 3],
      [2, 2.5],
      [5, 9],
      [4, 4.5],
    ];
    const { h, k } = mandel({ groups, significance: 0.05 });
    // Means 2, 2.25, 7, 4.25: mean 3.875, squares 3.515625 + 2.640625 + 9.765625 + 0.140625 = 16.0625.
    expect(h[2]).toBeCloseTo(3.125 / Math.sqrt(16.0625 / 3), 12);
    // Variances 2, 0.125, 8, 0.125: mean 2.5625.
    expect(k[2]).toBeCloseTo(Math.sqrt(8 / 2.5625), 12);
    expect(h.reduce((sum, each) => sum + each)).toBeCloseTo(0, 12);
    expect(k.reduce((sum, each) => sum + each * each, 0)).toBeCloseTo(4, 12);
  });
  it('refuse what they cannot judge', () => {
    const significance = 0.05;
    expect(() => cochran({ variances: [1], replicates: 3, significance })).toThrow('at least 2 groups');
    expect(() => cochran({ variances: [1, -1], replicates: 3, significance })).toThrow(
      'group 2 must be zero or more',
    );
    expect(() => cochran({ variances: [0, 0], replicates: 3, significance })).toThrow('values that differ');
    expect(() => cochran({ variances: [1, 2], replicates: 1, significance })).toThrow(
      'at least 2, but it is 1',
    );
    expect(() => mandel({ groups: [[1, 2], [1]], significance })).toThrow('at least 3 groups');
    expect(() => mandel({ groups: [[1, 2], [1], [2, 3]], significance })).toThrow('group 2 has 1');
    expect(() =>
      mandel({
        groups: [
          [1, 1],
          [2, 2],
          [3, 3],
        ],
        significance,
      }),
    ).toThrow('values that differ');
    expect(() => mandelCritical(2, 3, significance)).toThrow('at least 3, but it is 2');
  });
});

describe('consistency of results', () => {
  const values = gravitation.inputs.map((input) => input.value);
  const uncertainties = gravitation.inputs.map((input) => input.u);
  it('has the numbers of the constant of gravitation, CODATA 2018', () => {
    const result = consistencyTest({ values, uncertainties });
    expect(result.chiSquared).toBeCloseTo(gravitation.computed.chiSquared, 6);
    expect(result.birgeRatio).toBeCloseTo(gravitation.computed.birgeRatio, 8);
    expect(result.degreesOfFreedom).toBe(15);
    // SciPy 1.10.1 from the same inputs; twelve digits of chi-squared are nine of so small a probability.
    expect(result.pValue / 5.834844410316078e-34).toBeCloseTo(1, 8);
    expect(result.weightedMean).toBe(weightedMean({ values, uncertainties }).mean);
  });
  it('has the closed form of three results, exp(−χ²/2)', () => {
    const result = consistencyTest({ values: [1, 2, 6], uncertainties: [1, 1, 1] });
    expect(result.chiSquared).toBeCloseTo(14, 12);
    expect(result.pValue).toBeCloseTo(Math.exp(-7), 15);
    expect(result.birgeRatio).toBeCloseTo(Math.sqrt(7), 12);
  });
  it('finds nothing odd in results that are the same', () =>
    expect(consistencyTest({ values: [3, 3], uncertainties: [1, 2] })).toMatchObject({
      chiSquared: 0,
      pValue: 1,
    }));
  it('refuses one result and an uncertainty of zero', () => {
    expect(() => consistencyTest({ values: [3], uncertainties: [1] })).toThrow('at least 2 values');
    expect(() => consistencyTest({ values: [3, 4], uncertainties: [1, 0] })).toThrow('that of "run 2" is 0');
    expect(() => consistencyTest({ values: [3, 4], uncertainties: [1, Number.NaN] })).toThrow(
      'Unknown is never zero',
    );
  });
});
