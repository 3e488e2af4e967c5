import { describe, expect, it } from 'vitest';
import {
  chiSquaredQuantile,
  fCdf,
  fQuantile,
  normalQuantile,
  studentQuantile,
} from '../../src/statistics/index.js';
import {
  chiSquaredOfR,
  fOfR,
  fQuantiles,
  fTable,
  fTailsOf,
  normalOfR,
  studentOfR,
} from '../reference/quantiles.js';

function expectDigits(got: number, wanted: number, relative = 1e-12): void {
  expect(Math.abs(got - wanted), `got ${got}, wanted ${wanted}`).toBeLessThanOrEqual(
    relative * Math.abs(wanted),
  );
}

describe('quantiles to twelve digits of R and of mpmath', () => {
  it.each(normalOfR)('normal, p = %d', (p, r, precise) => {
    expectDigits(normalQuantile(p), r);
    expectDigits(normalQuantile(p), precise);
  });
  it.each(studentOfR)('t, p = %d, %d degrees of freedom', (p, nu, r, precise) => {
    expectDigits(studentQuantile(p, nu), r);
    expectDigits(studentQuantile(p, nu), precise);
  });
  it.each(chiSquaredOfR)('chi-squared, p = %d, %d degrees of freedom', (p, nu, r, precise) => {
    expectDigits(chiSquaredQuantile(p, nu), r);
    expectDigits(chiSquaredQuantile(p, nu), precise);
  });
  it.each(fOfR)('F, p = %d, %d and %d degrees of freedom', (p, above, below, r, precise) => {
    expectDigits(fQuantile(p, above, below), r);
    expectDigits(fQuantile(p, above, below), precise);
  });
});

describe('F distribution', () => {
  it.each(fQuantiles)('has its quantile at p = %d, %d and %d degrees of freedom', (p, above, below, x) =>
    expectDigits(fQuantile(p, above, below), x),
  );
  it.each(fTailsOf)('has both tails at %d, %d and %d degrees of freedom', (x, above, below, lower, upper) => {
    expectDigits(fCdf(x, above, below), lower);
    // The upper tail of F is the lower one of 1/F; from 1e-300 down nobody asks.
    if (upper > 1e-300) expectDigits(fCdf(1 / x, below, above), upper);
  });
  // The table was made with SciPy, whose F quantiles hold 12 to 13 digits.
  it.each(fTable)('has the table for %d and %d degrees of freedom', (above, below, at95, at99) => {
    expectDigits(fQuantile(0.95, above, below), at95, 2e-12);
    expectDigits(fQuantile(0.99, above, below), at99, 2e-12);
  });
  it.each([0.001, 0.3, 0.5, 0.95])(
    'is t² with one degree of freedom and has closed forms with two, p = %d',
    (p) => {
      expectDigits(fQuantile(p, 1, 7.5), studentQuantile((1 + p) / 2, 7.5) ** 2, 1e-11);
      // P(F <= x) = 1 − (1 + 2x/ν)^(−ν/2) with two degrees of freedom above.
      expectDigits(fQuantile(p, 2, 5), 2.5 * Math.expm1((-2 / 5) * Math.log1p(-p)));
      expectDigits(fQuantile(p, 6, 6) * fQuantile(1 - p, 6, 6), 1);
    },
  );
  it('goes over into chi-squared', () => {
    for (const p of [1e-10, 0.025, 0.5, 0.99]) {
      expectDigits(fQuantile(p, 4.5, Infinity), chiSquaredQuantile(p, 4.5) / 4.5);
      expectDigits(fCdf(1 / fQuantile(p, Infinity, 4.5), 4.5, Infinity), 1 - p);
    }
    expect(fCdf(0.9, Infinity, Infinity)).toBe(0);
    expect(fCdf(1.1, Infinity, Infinity)).toBe(1);
  });
  it('comes to an end at its ends', () => {
    expect([fQuantile(0, 3, 4), fQuantile(1, 3, 4)]).toEqual([0, Infinity]);
    expect([fCdf(-1, 3, 4), fCdf(0, 3, 4), fCdf(Infinity, 3, 4)]).toEqual([0, 0, 1]);
    expect(fQuantile(1e-10, 0.001, 5)).toBe(0);
    expect(fQuantile(1 - 1e-10, 5, 0.001)).toBe(Infinity);
    expect(fCdf(1e300, 3, 4)).toBe(1);
    expect(fCdf(1e-300, 3, 4)).toBe(0);
  });
  it('refuses what makes no sense', () => {
    expect(() => fQuantile(1.5, 3, 4)).toThrow('between 0 and 1');
    expect(() => fQuantile(0.5, 0, 4)).toThrow('"F distribution, numerator" must be more than zero');
    expect(() => fCdf(1, 3, -1)).toThrow('"F distribution, denominator" must be more than zero');
    expect(() => fCdf(Number.NaN, 3, 4)).toThrow('must be a finite number');
  });
});
