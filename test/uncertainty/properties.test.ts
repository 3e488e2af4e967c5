import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  add,
  constant,
  divide,
  errorOf,
  multiply,
  power,
  propagate,
  type Quantity,
  scale,
  sensitivities,
  type Source,
  source,
  subtract,
} from '../../src/uncertainty/index.js';

const seeded = { seed: 20_261_005, numRuns: 300 };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const whole = (min: number, max: number) => fc.integer({ min, max });

/**
 * A linear model y = J·x with x = μ + A·z, z independent with uncertainties u. All numbers are whole and small, so that
 * every sum and product is exact whatever its order, and the two sides can be asked to be the same bit for bit.
 */
const linearCase = fc.record({ sources: whole(1, 6), inputs: whole(1, 6) }).chain(({ sources, inputs }) =>
  fc.record({
    u: fc.array(whole(0, 100), { minLength: sources, maxLength: sources }),
    a: fc.array(fc.array(whole(-50, 50), { minLength: sources, maxLength: sources }), {
      minLength: inputs,
      maxLength: inputs,
    }),
    mu: fc.array(whole(-1000, 1000), { minLength: inputs, maxLength: inputs }),
    j: fc.array(whole(-50, 50), { minLength: inputs, maxLength: inputs }),
  }),
);

describe('a linear model', () => {
  it('gives exactly u² = J·Σ·Jᵀ with Σ = A·diag(u²)·Aᵀ', () => {
    fc.assert(
      fc.property(linearCase, ({ u, a, mu, j }) => {
        const errors = u.map((each, i) =>
          errorOf(source({ id: `z${i}`, name: `z${i}`, standardUncertainty: each })),
        );
        const inputs = a.map((row, i) =>
          add(constant(mu[i]!), ...row.map((weight, k) => scale(errors[k]!, weight))),
        );
        const found = propagate(add(...inputs.map((input, i) => scale(input, j[i]!))));
        const covariance = (p: number, q: number) =>
          u.reduce((sum, each, k) => sum + a[p]![k]! * a[q]![k]! * each ** 2, 0);
        const pairs = j.flatMap((jp, p) => j.map((jq, q) => jp * covariance(p, q) * jq));
        expect(found.standardUncertainty).toBe(Math.sqrt(pairs.reduce((sum, each) => sum + each, 0)));
        expect(found.value - mu.reduce((sum, each, i) => sum + each * j[i]!, 0)).toBe(0);
      }),
      seeded,
    );
  });
});

const factor = fc.record({
  value: number(0.1, 100),
  relative: number(1e-4, 0.1),
  exponent: fc.constantFrom(-2, -1, 0.5, 1, 2, 3),
});

describe('a product of powers', () => {
  it('gives (u/y)² = Σ(p·u/x)², JCGM 100 5.1.6, equation (12)', () => {
    fc.assert(
      fc.property(fc.array(factor, { minLength: 1, maxLength: 6 }), (factors) => {
        const quantities = factors.map(({ value, relative, exponent }, i) => {
          const u = value * relative;
          const error = errorOf(source({ id: `x${i}`, name: `x${i}`, standardUncertainty: u }));
          return power(add(constant(value), error), exponent);
        });
        const found = propagate(quantities.reduce((product, each) => multiply(product, each)));
        const expected = Math.hypot(...factors.map(({ relative, exponent }) => relative * exponent));
        expect(found.standardUncertainty / found.value / expected).toBeCloseTo(1, 10);
      }),
      seeded,
    );
  });

  it('gives the shares of the budget as parts of one', () => {
    fc.assert(
      fc.property(fc.array(factor, { minLength: 1, maxLength: 6 }), (factors) => {
        const terms = factors.map(({ value, relative }, i) =>
          add(
            constant(value),
            errorOf(source({ id: `x${i}`, name: 'x', standardUncertainty: value * relative })),
          ),
        );
        const { budget } = propagate(add(...terms));
        expect(budget.reduce((sum, row) => sum + row.share, 0)).toBeCloseTo(1, 12);
        const contributions = budget.map((row) => row.contribution);
        expect(contributions).toEqual([...contributions].sort((x, y) => y - x));
      }),
      seeded,
    );
  });
});

/** η = m·c·(T2 − T1)/E with masses in units of `kg` and energies in units of `joule`. */
function heating(kg: number, joule: number): Quantity {
  const read = (id: string, value: number, u: number, degreesOfFreedom = Number.POSITIVE_INFINITY) =>
    add(constant(value), errorOf(source({ id, name: id, standardUncertainty: u, degreesOfFreedom })));
  const mass = read('mass', 6 / kg, 0.002 / kg, 8);
  const rise = subtract(read('end', 325, 0.1, 5), read('start', 285, 0.08));
  const capacity = constant((4186 * kg) / joule);
  return divide(multiply(multiply(mass, capacity), rise), read('energy', 1.3e6 / joule, 6000 / joule));
}

describe('units', () => {
  it('change nothing but the units', () => {
    const plain = propagate(heating(1, 1));
    fc.assert(
      fc.property(number(1e-6, 1e6), number(1e-6, 1e6), (kg, joule) => {
        const other = propagate(heating(kg, joule));
        expect(other.value / plain.value).toBeCloseTo(1, 12);
        expect(other.standardUncertainty / plain.standardUncertainty).toBeCloseTo(1, 12);
        expect(other.degreesOfFreedom / plain.degreesOfFreedom).toBeCloseTo(1, 10);
        expect(other.budget.map((row) => row.source.id)).toEqual(plain.budget.map((row) => row.source.id));
        for (const [i, row] of other.budget.entries()) {
          expect(row.share).toBeCloseTo(plain.budget[i]!.share, 12);
        }
      }),
      seeded,
    );
  });
  it('of the result scale value and uncertainty, not degrees of freedom', () => {
    const plain = propagate(heating(1, 1));
    fc.assert(
      fc.property(number(1e-6, 1e6), (unit) => {
        const other = propagate(scale(heating(1, 1), unit));
        expect(other.value / unit / plain.value).toBeCloseTo(1, 12);
        expect(other.expandedUncertainty / unit / plain.expandedUncertainty).toBeCloseTo(1, 12);
        expect(other.degreesOfFreedom).toBeCloseTo(plain.degreesOfFreedom, 8);
      }),
      seeded,
    );
  });
});

describe('sharing', () => {
  const offset = source({ id: 'offset', name: 'offset', halfWidth: 0.5 });
  it('cancels in a difference, whatever stands between', () => {
    fc.assert(
      fc.property(number(-100, 100), number(-100, 100), (low, high) => {
        const [a, b] = [low, high].map((value) => add(constant(value), errorOf(offset)));
        const found = propagate(subtract(b!, a!));
        expect(found.standardUncertainty).toBe(0);
        expect(found.interval).toEqual([found.value, found.value]);
      }),
      seeded,
    );
  });
  it('adds up in a mean, where fresh errors shrink', () => {
    const readings = (of: (i: number) => Source) =>
      Array.from({ length: 16 }, (_, i) => add(constant(20), errorOf(of(i))));
    const mean = (terms: readonly Quantity[]) => propagate(scale(add(...terms), 1 / terms.length));
    const fresh = (i: number) => source({ id: `s${i}`, name: 'step', halfWidth: 0.5 });
    expect(mean(readings(() => offset)).standardUncertainty).toBeCloseTo(0.5 / Math.sqrt(3), 12);
    expect(mean(readings(fresh)).standardUncertainty).toBeCloseTo(0.5 / Math.sqrt(3) / 4, 12);
  });
});

describe('a deep graph', () => {
  const depth = 50_000;
  it('does not overflow the stack', () => {
    const step = errorOf(source({ id: 'step', name: 'step', standardUncertainty: 1e-3 }));
    let total: Quantity = constant(0);
    for (let i = 0; i < depth; i++) total = add(total, step);
    expect(sensitivities(total)).toEqual([{ source: step.source, sensitivity: depth }]);
    expect(propagate(total).standardUncertainty).toBeCloseTo(depth * 1e-3, 9);
  });
  it('with a branch met on 2^60 roads is walked once', () => {
    const error = errorOf(source({ id: 'e', name: 'e', standardUncertainty: 1 }));
    let doubled: Quantity = add(constant(1), error);
    for (let i = 0; i < 60; i++) doubled = add(doubled, doubled);
    expect(sensitivities(doubled)[0]!.sensitivity).toBe(2 ** 60);
  });
});
