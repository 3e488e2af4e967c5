import { describe, expect, it } from 'vitest';
import {
  chiSquaredCdf,
  chiSquaredQuantile,
  normalCdf,
  normalQuantile,
  studentCdf,
  studentQuantile,
} from '../../src/statistics/index.js';
import {
  chiSquaredLower,
  chiSquaredQuantiles,
  normalQuantiles,
  normalTails,
  studentQuantiles,
  studentTailsLarge,
  studentUpperTails,
} from '../reference/statistics.js';

/** Relative difference judged against twelve digits. */
function expectTwelveDigits(got: number, wanted: number): void {
  expect(Math.abs(got - wanted), `got ${got}, wanted ${wanted}`).toBeLessThanOrEqual(
    1e-12 * Math.abs(wanted),
  );
}

describe('normal distribution', () => {
  it.each(normalQuantiles)('has its quantile at p = %d', (p, z) => expectTwelveDigits(normalQuantile(p), z));
  it.each(normalTails)('has its tail below −%d', (z, tail) => expectTwelveDigits(normalCdf(-z), tail));
  it('adds up to one', () => {
    for (let z = -6; z <= 6; z += 0.25)
      expect(Math.abs(normalCdf(z) + normalCdf(-z) - 1)).toBeLessThan(4e-16);
  });
  it('agrees with chi-squared of one degree of freedom, which goes another way', () => {
    for (let z = 0.05; z <= 8; z += 0.05) expectTwelveDigits(chiSquaredCdf(z * z, 1), 1 - 2 * normalCdf(-z));
  });
  it('ends at the infinities', () => {
    expect(normalQuantile(0)).toBe(-Infinity);
    expect(normalQuantile(1)).toBe(Infinity);
    expect(normalCdf(-Infinity)).toBe(0);
    expect(normalCdf(Infinity)).toBe(1);
  });
});

describe('t distribution', () => {
  it.each(studentQuantiles)('has its quantile at p = %d, %d degrees of freedom', (p, nu, t) =>
    expectTwelveDigits(studentQuantile(p, nu), t),
  );
  it.each([...studentUpperTails, ...studentTailsLarge])(
    'has its tail beyond %d, %d degrees of freedom',
    (t, nu, tail) => expectTwelveDigits(studentCdf(-t, nu), tail),
  );
  // From memory, to 13 digits; R and mpmath agree.
  it('has t(0.975, 2.5)', () => expect(studentQuantile(0.975, 2.5)).toBeCloseTo(3.574654842004, 12));
  it.each([1e-10, 0.01, 0.3, 0.6, 0.975, 0.9999])('has the closed forms of 1 and 2 degrees at %d', (p) => {
    const tail = Math.min(p, 1 - p);
    const sign = p < 0.5 ? -1 : 1;
    expectTwelveDigits(studentQuantile(p, 1), sign / Math.tan(Math.PI * tail));
    expectTwelveDigits(studentQuantile(p, 2), (sign * (1 - 2 * tail)) / Math.sqrt(2 * tail * (1 - tail)));
  });
  it('goes over into the normal distribution', () => {
    expect(studentQuantile(0.975, Infinity)).toBe(normalQuantile(0.975));
    expect(studentCdf(1.3, Infinity)).toBe(normalCdf(1.3));
    // Cornish and Fisher's first term, (z³ + z)/4ν; the next is below 3e-14 here.
    for (const nu of [1e7, 9e7, 2e8, 1e12]) {
      const z = normalQuantile(0.975);
      expect(Math.abs(studentQuantile(0.975, nu) - z - (z ** 3 + z) / (4 * nu))).toBeLessThan(2e-13);
    }
  });
  it('comes to an end where the quantile leaves the range of doubles', () => {
    expect(studentQuantile(1e-10, 1e-3)).toBe(-Infinity);
    expect(studentQuantile(0.9, 1e-300)).toBe(Infinity);
    expect(studentCdf(-1e200, 0.05)).toBeGreaterThan(0);
    expect(studentCdf(studentQuantile(1e-10, 0.05), 0.05)).toBeCloseTo(1e-10, 20);
  });
});

describe('chi-squared distribution', () => {
  it.each(chiSquaredQuantiles)('has its quantile at p = %d, %d degrees of freedom', (p, nu, x) =>
    expectTwelveDigits(chiSquaredQuantile(p, nu), x),
  );
  it.each(chiSquaredLower)('has its probability below %d, %d degrees of freedom', (x, nu, p) => {
    // 1e-300 and less is not a probability anybody asks for.
    if (p < 1e-300) expect(chiSquaredCdf(x, nu)).toBeLessThan(1e-299);
    else expectTwelveDigits(chiSquaredCdf(x, nu), p);
  });
  it.each([1e-10, 0.01, 0.5, 0.9999])('has the closed form of 2 degrees at %d', (p) =>
    expectTwelveDigits(chiSquaredQuantile(p, 2), -2 * Math.log1p(-p)),
  );
  it.each([9e7, 1.1e8, 1e12])('has no step where the method changes, %d degrees of freedom', (nu) => {
    // Cornish and Fisher's expansion to the term in z⁴/ν; the next is below 1e-9·√ν⁻¹ of it.
    const z = normalQuantile(0.975);
    const expansion =
      nu + z * Math.sqrt(2 * nu) + (2 / 3) * (z * z - 1) + (z ** 3 - 7 * z) / (9 * Math.sqrt(2 * nu));
    expectTwelveDigits(chiSquaredQuantile(0.975, nu), expansion);
  });
  it('comes to an end where the quantile is too small for a double', () => {
    expect(chiSquaredQuantile(1e-10, 1e-3)).toBe(0);
    expect(chiSquaredQuantile(0, 3)).toBe(0);
    expect(chiSquaredQuantile(1, 3)).toBe(Infinity);
    expect(chiSquaredCdf(-1, 3)).toBe(0);
  });
});

describe('what the distributions refuse', () => {
  it.each([-0.1, 1.1, Number.NaN])('p = %d', (p) => {
    expect(() => normalQuantile(p)).toThrow('between 0 and 1');
    expect(() => studentQuantile(p, 3)).toThrow('between 0 and 1');
    expect(() => chiSquaredQuantile(p, 3)).toThrow('between 0 and 1');
  });
  it.each([0, -1, Number.NaN])('%d degrees of freedom', (nu) => {
    expect(() => studentCdf(1, nu)).toThrow('more than zero');
    expect(() => studentQuantile(0.9, nu)).toThrow('more than zero');
    expect(() => chiSquaredCdf(1, nu)).toThrow('more than zero');
    expect(() => chiSquaredQuantile(0.9, nu)).toThrow('more than zero');
  });
  it('infinite degrees of freedom of chi-squared', () => {
    expect(() => chiSquaredQuantile(0.9, Infinity)).toThrow('must be finite');
    expect(() => chiSquaredCdf(1, Infinity)).toThrow('must be finite');
  });
});
