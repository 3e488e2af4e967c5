import { describe, expect, it } from 'vitest';
import {
  cosineOf,
  exponentialOf,
  logarithmOf,
  powerOf,
  sineOf,
} from '../../src/uncertainty/monteCarlo/elementary.js';

/** Math, which is within one unit of the last place of the truth; so are ours, hence two between them. */
const TWO_UNITS = 2 * 2 ** -52;

function worst(f: (x: number) => number, g: (x: number) => number, low: number, high: number): number {
  let most = 0;
  for (let i = 0; i <= 40_000; i++) {
    // An irrational step reaches all parts of the range without a pattern.
    const x = low + (high - low) * ((i * 0.6180339887498949) % 1);
    const [ours, theirs] = [f(x), g(x)];
    most = Math.max(most, ours === theirs ? 0 : Math.abs(ours - theirs) / Math.abs(theirs));
  }
  return most;
}

describe('functions from basic arithmetic', () => {
  it.each([
    ['exp', exponentialOf, Math.exp, -700, 700],
    ['exp near 0', exponentialOf, Math.exp, -0.01, 0.01],
    ['log', logarithmOf, Math.log, 1e-300, 1e-290],
    ['log near 1', logarithmOf, Math.log, 0.7, 1.5],
    ['log', logarithmOf, Math.log, 1, 1e9],
    ['sin', sineOf, Math.sin, -7, 7],
    ['cos', cosineOf, Math.cos, -7, 7],
    ['sin of many turns', sineOf, Math.sin, 9e4, 1e5],
    ['cos of many turns', cosineOf, Math.cos, -1e5, -9e4],
  ] as const)('agree with Math: %s', (_name, ours, theirs, low, high) =>
    expect(worst(ours, theirs, low, high)).toBeLessThanOrEqual(TWO_UNITS),
  );
  it.each([0.3, 1.7, 33.33, -2.4])('agree with Math: powers of exponent %d', (exponent) => {
    // exp(e·log x) loses as many units as the size of e·log x: 2.3 times the exponent here, and twice for Math.
    const most = TWO_UNITS * (4 + 5 * Math.abs(exponent));
    expect(
      worst(
        (x) => powerOf(x, exponent),
        (x) => x ** exponent,
        0.1,
        10,
      ),
    ).toBeLessThan(most);
  });
  it.each([2, 3, -1, 0.5, -1.5, 7, 0])('multiply out whole and half exponents: %d', (exponent) =>
    expect(
      worst(
        (x) => powerOf(x, exponent),
        (x) => x ** exponent,
        0.1,
        10,
      ),
    ).toBeLessThan(6 * TWO_UNITS),
  );
  it('know the ends of their ranges', () => {
    expect(exponentialOf(0)).toBe(1);
    expect(exponentialOf(710)).toBe(Number.POSITIVE_INFINITY);
    expect(exponentialOf(-746)).toBe(0);
    expect(exponentialOf(-740)).toBe(Math.exp(-740));
    expect(exponentialOf(709.7) / Math.exp(709.7)).toBeCloseTo(1, 14);
    expect(exponentialOf(Number.NaN)).toBeNaN();
    expect(logarithmOf(1)).toBe(0);
    expect(logarithmOf(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(logarithmOf(5e-324)).toBeCloseTo(Math.log(5e-324), 12);
    expect(logarithmOf(-1)).toBeNaN();
    expect(logarithmOf(Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
    expect(sineOf(0)).toBe(0);
    expect(cosineOf(0)).toBe(1);
    expect(cosineOf(1.1e5)).toBeNaN();
    expect(powerOf(-2, 3)).toBe(-8);
    expect(powerOf(-2, 65)).toBeCloseTo(-(2 ** 65), -6);
    expect(powerOf(-2, 0.3)).toBeNaN();
    expect(powerOf(0, -0.3)).toBe(Number.POSITIVE_INFINITY);
  });
});
