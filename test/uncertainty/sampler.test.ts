import { describe, expect, it } from 'vitest';
import { normalCdf, studentCdf } from '../../src/statistics/index.js';
import { ascending } from '../../src/uncertainty/monteCarlo/ascending.js';
import { intervals } from '../../src/uncertainty/monteCarlo/intervals.js';
import { moments } from '../../src/uncertainty/monteCarlo/moments.js';
import { Sampler } from '../../src/uncertainty/monteCarlo/Sampler.js';
import { Xoshiro } from '../../src/uncertainty/monteCarlo/Xoshiro.js';

const BLOCK = 1000;

/** So many draws of a shape. */
function draws(fill: (sampler: Sampler, out: Float64Array) => void, count: number, seed = 7): Float64Array {
  const sampler = new Sampler(Xoshiro.seeded(seed), BLOCK);
  const values = new Float64Array(count);
  for (let at = 0; at < count; at += BLOCK) fill(sampler, values.subarray(at, at + BLOCK));
  return values;
}

/** Largest distance between the share of draws below a value and its probability: Kolmogorov's D. */
function distance(values: Float64Array, cdf: (x: number) => number): number {
  let most = 0;
  values.sort().forEach((value, i) => {
    const probability = cdf(value);
    most = Math.max(
      most,
      Math.abs(probability - i / values.length),
      Math.abs((i + 1) / values.length - probability),
    );
  });
  return most;
}

const clamp = (p: number) => Math.min(1, Math.max(0, p));

/** Of half-width a and top half-width b·a: the integral of a trapezoid. */
function trapezoidCdf(x: number, b: number, a: number): number {
  const z = Math.min(a, Math.abs(x));
  const height = 1 / (a * (1 + b));
  const flat = Math.min(z, a * b);
  const slope = z - flat;
  const half = height * (flat + slope - (b < 1 ? slope ** 2 / (2 * a * (1 - b)) : 0));
  return 0.5 + Math.sign(x) * half;
}

describe('the shapes of an error source have their distributions', () => {
  const shapes: [string, (sampler: Sampler, out: Float64Array) => void, (x: number) => number][] = [
    ['normal', (s, out) => s.normal(out), normalCdf],
    ['rectangular', (s, out) => s.rectangular(out), (x) => clamp(0.5 + x / Math.sqrt(12))],
    ['triangular', (s, out) => s.triangular(out), (x) => trapezoidCdf(x, 0, Math.sqrt(6))],
    [
      'trapezoidal',
      (s, out) => s.trapezoidal(out, 0.4),
      (x) => trapezoidCdf(x, 0.4, Math.sqrt(6 / (1 + 0.4 ** 2))),
    ],
    [
      'arcsine',
      (s, out) => s.arcsine(out),
      (x) => 0.5 + Math.asin(Math.max(-1, Math.min(1, x / Math.SQRT2))) / Math.PI,
    ],
    ...[0.4, 1, 2, 3.7, 50].map((nu): (typeof shapes)[number] => [
      `t, ${nu} degrees of freedom`,
      (s, out) => s.t(out, nu),
      (x) => studentCdf(x, nu),
    ]),
  ];
  it.each(shapes)('%s', (_name, fill, cdf) => {
    const count = 200_000;
    // Kolmogorov's limit: P(√n·D > 2.7) = 2·exp(−2·2.7²) = 9e-7.
    expect(distance(draws(fill, count), cdf) * Math.sqrt(count)).toBeLessThan(2.7);
  });

  it('normal, beyond the last layer of the Ziggurat', () => {
    const count = 4_000_000;
    const values = draws((s, out) => s.normal(out), count);
    for (const limit of [3.2, 3.654152885361009, 4.2]) {
      for (const side of [-1, 1]) {
        const expected = count * normalCdf(-limit);
        const beyond = values.reduce((sum, value) => sum + (side * value > limit ? 1 : 0), 0);
        // A count of rare events is Poisson's: five standard deviations.
        expect(Math.abs(beyond - expected)).toBeLessThan(5 * Math.sqrt(expected));
      }
    }
  });
});

describe('coverage intervals from trials', () => {
  it.each([
    [100, 0.95],
    [1000, 0.5],
    [19_999, 0.99],
    [50_000, 0.95],
    [60_001, 0.999],
    [40_000, 0.6827],
  ])('of %d values at %d are those of JCGM 101 7.7 on the sorted list', (count, coverage) => {
    // Skewed, so that the two intervals differ.
    const values = draws((s, out) => s.normal(out), Math.ceil(count / BLOCK) * BLOCK)
      .subarray(0, count)
      .map((x) => x * x + x);
    const sorted = Float64Array.from(values).sort();
    const pM = coverage * count;
    const q = Number.isInteger(pM) ? pM : Math.floor(pM + 0.5);
    const r = Number.isInteger((count - q) / 2) ? (count - q) / 2 : Math.floor((count - q + 1) / 2);
    let shortest = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    for (let k = 1; k + q <= count; k++) {
      const ends = [sorted[k - 1]!, sorted[k + q - 1]!];
      if (ends[1]! - ends[0]! < shortest[1]! - shortest[0]!) shortest = ends;
    }
    const found = intervals(values, coverage);
    expect(found.symmetric).toEqual([sorted[r - 1], sorted[r + q - 1]]);
    expect(found.shortest).toEqual(shortest);
  });
  it('survives values in an order that misleads the probes, and values that repeat', () => {
    const ordered = Float64Array.from({ length: 65_536 }, (_, i) => (i % 8 === 0 ? 0 : i));
    const sorted = Float64Array.from(ordered).sort();
    const found = intervals(ordered, 0.95);
    const r = Math.floor((65_536 - 62_259 + 1) / 2);
    expect(found.symmetric).toEqual([sorted[r - 1], sorted[r + 62_259 - 1]]);
    expect(intervals(new Float64Array(30_000).fill(3), 0.95).shortest).toEqual([3, 3]);
  });
});

describe('a sort by digits', () => {
  it('gives what a sort by comparison gives, to the bit', () => {
    const values = draws((s, out) => s.t(out, 0.5), 6000);
    values.set([0, -0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 5e-324, -5e-324, -1e308], 17);
    const expected = Float64Array.from(values).sort();
    const found = ascending(values);
    expect(found.length).toBe(expected.length);
    expect(found.every((value, i) => Object.is(value, expected[i]))).toBe(true);
    expect([...ascending(Float64Array.of(3, -1, 2))]).toEqual([-1, 2, 3]);
  });
});

describe('mean and standard deviation of trials', () => {
  it('hold out where the mean is large beside the spread', () => {
    // 1e9 ± 1, an odd number of them: the deviation by hand is √(Σ1/(n − 1)).
    const values = Float64Array.from(
      { length: 1001 },
      (_, i) => 1e9 + (i === 1000 ? 0 : i % 2 === 0 ? 1 : -1),
    );
    const { mean, deviation } = moments(values);
    expect(mean).toBe(1e9);
    expect(deviation).toBe(1);
  });
});
