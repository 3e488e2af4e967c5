import { describe, expect, it } from 'vitest';
import { mean, median, quantile, standardDeviation } from '../../src/statistics/index.js';
import { strdUnivariate } from '../reference/statistics.js';

describe('NIST univariate sets', () => {
  it.each(Object.entries(strdUnivariate))('%s', (_name, set) => {
    expect(Math.abs(mean(set.data) / set.mean - 1)).toBeLessThan(1e-14);
    // Deviations from a mean of about 2 with a spread of 4e-4 lose four of sixteen digits.
    expect(Math.abs(standardDeviation(set.data) / set.standardDeviation - 1)).toBeLessThan(1e-11);
  });
});

describe('median and quantile', () => {
  it('take the middle', () => {
    expect(median([5, 1, 3])).toBe(3);
    expect(median([4, 1, 3, 2])).toBe(2.5);
  });
  it('interpolate between order statistics at 1 + (n − 1)p', () => {
    const list = [40, 10, 30, 20];
    expect(quantile(list, 0)).toBe(10);
    expect(quantile(list, 1)).toBe(40);
    expect(quantile(list, 0.1)).toBeCloseTo(13, 12);
    expect(quantile(list, 0.5)).toBe(median(list));
    expect(list).toEqual([40, 10, 30, 20]);
  });
});

describe('what is refused', () => {
  it('lists too short', () => {
    expect(() => mean([])).toThrow('A mean needs at least 1 value, but got 0.');
    expect(() => median([])).toThrow('at least 1 value');
    expect(() => quantile([], 0.5)).toThrow('at least 1 value');
    expect(() => standardDeviation([3])).toThrow('A standard deviation needs at least 2 values, but got 1.');
  });
  it('values that are no numbers, by their place', () => {
    expect(() => mean([1, Number.NaN])).toThrow('Value 2 must be a finite number');
    expect(() => quantile([1, 2], 1.5)).toThrow('between 0 and 1');
  });
});
