import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  add,
  constant,
  correlatedErrors,
  divide,
  errorOf,
  multiply,
  propagate,
  propagateTogether,
  type Quantity,
  scale,
  simulate,
  source,
} from '../../src/uncertainty/index.js';

const seeded = { seed: 20_261_125, numRuns: 200 };
const few = { seed: 20_261_125, numRuns: 40 };
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** A covariance matrix B·Bᵀ of small whole numbers, with weights for as many results. */
const groupCase = fc.integer({ min: 1, max: 5 }).chain((n) => {
  const row = fc.array(fc.integer({ min: -9, max: 9 }), { minLength: n, maxLength: n });
  const square = fc.array(row, { minLength: n, maxLength: n });
  return fc.record({ b: square, weights: square });
});

const product = (a: readonly (readonly number[])[], b: readonly (readonly number[])[]) =>
  a.map((row) => b[0]!.map((_, j) => row.reduce((sum, entry, k) => sum + entry * b[k]![j]!, 0)));
const transposed = (a: readonly (readonly number[])[]) => a[0]!.map((_, j) => a.map((row) => row[j]!));

describe('linear models of correlated errors', () => {
  it('agree with the matrix formula W·Σ·Wᵀ', () => {
    fc.assert(
      fc.property(groupCase, ({ b, weights }) => {
        const covariance = product(b, transposed(b));
        const names = covariance.map((_, i) => `e${i}`);
        const errors = correlatedErrors({ id: 'g', names, covariance });
        const results = weights.map((row) => add(...row.map((weight, i) => scale(errors[i]!, weight))));
        const expected = product(product(weights, covariance), transposed(weights));
        const found = propagateTogether(results);
        // Entries reach 81·5·81·25; a matrix of lower rank leaves the root of what rounding leaves, 1e-12 of a variance.
        const largest = Math.max(1, ...covariance.map((row, i) => row[i]!)) * 81 * 25;
        expected.forEach((row, i) => {
          row.forEach((entry, j) => {
            expect(Math.abs(found.covariance[i]![j]! - entry)).toBeLessThan(1e-9 * largest);
          });
          expect(found.results[i]!.standardUncertainty ** 2).toBeCloseTo(found.covariance[i]![i]!, 6);
        });
      }),
      seeded,
    );
  });
});

const modelCase = fc.record({
  values: fc.array(between(5, 50), { minLength: 4, maxLength: 4 }),
  relative: fc.array(between(0.0005, 0.01), { minLength: 4, maxLength: 4 }),
  seed: fc.integer({ min: 0, max: 1e9 }),
});

/** Mildly bent: (a·b)/(c + d), with relative uncertainties of at most 1 %. */
function model(values: readonly number[], relative: readonly number[], unit = 1): Quantity {
  const [a, b, c, d] = values.map((value, i) =>
    add(
      constant(value * unit),
      errorOf(source({ id: `x${i}`, name: `x${i}`, standardUncertainty: value * unit * relative[i]! })),
    ),
  ) as [Quantity, Quantity, Quantity, Quantity];
  return divide(multiply(a, b), add(c, d));
}

describe('mildly non-linear models', () => {
  it('give the same by first order and by Monte Carlo', () => {
    fc.assert(
      fc.property(modelCase, ({ values, relative, seed }) => {
        const quantity = model(values, relative);
        const first = propagate(quantity);
        const trials = 40_000;
        const found = simulate(quantity, { seed, trials });
        const u = first.standardUncertainty;
        // Bend: relative second-order terms are w² with w up to 0.01·√4; that part of the value, and of u.
        const bend = 4 * 0.01 ** 2;
        const relativeU = u / Math.abs(first.value);
        const bias = Math.abs(first.value) * Math.min(bend, 4 * relativeU ** 2);
        // Six standard errors each: mean u/√M, deviation u/√(2M), an end √(p(1 − p)/M)/0.0584·u.
        expect(Math.abs(found.mean! - first.value)).toBeLessThan(bias + (6 * u) / Math.sqrt(trials));
        expect(Math.abs(found.standardUncertainty! - u)).toBeLessThan(
          2 * bias + (6 * u) / Math.sqrt(2 * trials),
        );
        const end = 6 * u * (Math.sqrt((0.025 * 0.975) / trials) / 0.0584);
        expect(Math.abs(found.symmetric[0] - first.interval[0])).toBeLessThan(6 * bias + end);
        expect(Math.abs(found.symmetric[1] - first.interval[1])).toBeLessThan(6 * bias + end);
      }),
      few,
    );
  });
  it('change with the units of their inputs by the unit of the result alone', () => {
    fc.assert(
      fc.property(modelCase, fc.integer({ min: -20, max: 20 }), ({ values, relative, seed }, exponent) => {
        // (a·b)/(c + d) has the unit of its inputs; a power of two changes no digit.
        const unit = 2 ** exponent;
        const plain = simulate(model(values, relative), { seed, trials: 2000 });
        const scaled = simulate(model(values, relative, unit), { seed, trials: 2000 });
        expect(scaled.mean).toBe(plain.mean! * unit);
        expect(scaled.standardUncertainty).toBe(plain.standardUncertainty! * unit);
        expect(scaled.symmetric).toEqual(plain.symmetric.map((end) => end * unit));
        expect(scaled.shortest).toEqual(plain.shortest.map((end) => end * unit));
      }),
      few,
    );
  });
});
