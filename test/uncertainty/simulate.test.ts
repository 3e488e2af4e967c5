import { describe, expect, it } from 'vitest';
import {
  add,
  constant,
  cosine,
  divide,
  errorOf,
  exponential,
  lift,
  logarithm,
  multiply,
  numericalTolerance,
  power,
  propagate,
  type Quantity,
  scale,
  simulate,
  type SourceSpec,
  sine,
  source,
  subtract,
} from '../../src/uncertainty/index.js';

const coded = (code: string, sentence: RegExp) =>
  expect.objectContaining({ code, message: expect.stringMatching(sentence) });
const error = (id: string, spec: Omit<SourceSpec, 'id' | 'name'>) =>
  errorOf(source({ id, name: id, ...spec }));
const about = (value: number, of: Quantity) => add(constant(value), of);
const normal = (id: string, standardUncertainty = 1) => error(id, { standardUncertainty });

describe('what a graph says is what the trials do', () => {
  // Each right side is the left one by another road through the graph, so that they agree trial by trial.
  const x = about(2, normal('x', 0.1));
  const y = about(3, normal('y', 0.2));
  const [z, w, v] = [normal('z'), normal('w'), normal('v')];
  const pairs: [string, Quantity, Quantity][] = [
    [
      '(x + y)² = x² + 2xy + y²',
      power(add(x, y), 2),
      add(power(x, 2), scale(multiply(x, y), 2), power(y, 2)),
    ],
    ['x/y = x·y⁻¹', divide(x, y), multiply(x, power(y, -1))],
    ['1/(1/x) = x', divide(constant(1), divide(constant(1), x)), x],
    ['√x·√x = x', multiply(power(x, 0.5), power(x, 0.5)), x],
    ['exp(log x) = x', exponential(logarithm(x)), x],
    ['exp(0.3·log x) = x^0.3', exponential(scale(logarithm(x), 0.3)), power(x, 0.3)],
    ['sin² + cos² = 1', add(power(sine(x), 2), power(cosine(x), 2)), constant(1)],
    ['a function of one', lift('cube', ([v]) => v! ** 3, [3 * x.value ** 2], x), power(x, 3)],
    ['a function of two', lift('product', ([v, w]) => v! * w!, [y.value, x.value], x, y), multiply(x, y)],
    ['five terms', add(x, y, x, scale(y, 2), z, w, v), add(scale(x, 2), scale(y, 3), add(z, w), v)],
  ];
  it.each(pairs)('%s', (_what, left, right) => {
    const difference = subtract(left, right);
    const found = simulate(difference, { seed: 4, trials: 5000 });
    expect(Math.abs(found.mean!)).toBeLessThan(1e-13);
    expect(found.standardUncertainty!).toBeLessThan(1e-13);
    expect(left.value).toBeCloseTo(right.value, 13);
  });
  it('leaves nothing of what cancels', () => {
    const offset = normal('offset', 5);
    const rise = subtract(about(60, add(offset, normal('end', 0.1))), about(20, offset));
    expect(simulate(rise, { seed: 1, trials: 20_000 }).standardUncertainty).toBeLessThan(0.11);
  });
  it('gives an exact result for an exact quantity', () => {
    const found = simulate(constant(5), { seed: 1, trials: 1000 });
    expect(found).toMatchObject({ mean: 5, standardUncertainty: 0, symmetric: [5, 5], shortest: [5, 5] });
    expect(simulate(constant(5), { seed: 1, digits: 2 }).converged).toBe(true);
  });
  it('walks a deep graph', () => {
    let sum: Quantity = normal('x', 0.5);
    for (let i = 0; i < 20_000; i++) sum = add(sum, constant(1));
    const found = simulate(sum, { seed: 1, trials: 10_000 });
    // Five standard errors of a mean.
    expect(Math.abs(found.mean! - 20_000)).toBeLessThan((5 * 0.5) / 100);
  });
});

describe('the same seed', () => {
  const x = about(2, error('x', { halfWidth: 0.1 }));
  const t = about(3, error('t', { standardUncertainty: 0.2, degreesOfFreedom: 4 }));
  const model = multiply(x, exponential(t));
  it('gives the same figures again, another seed others', () => {
    const first = simulate(model, { seed: 8, trials: 20_000 });
    expect(simulate(model, { seed: 8, trials: 20_000 })).toEqual(first);
    expect(simulate(model, { seed: 9, trials: 20_000 }).mean).not.toBe(first.mean);
    expect(first.seed).toBe(8);
  });
  it('gives these bits on every machine', () => {
    // A change detector: our own output of one machine, which any other must give to the last bit.
    const found = simulate(model, { seed: 8, trials: 20_000 });
    expect([found.mean, found.standardUncertainty, ...found.symmetric, ...found.shortest]).toEqual(BITS);
  });
  it('gives the same results together as apart where the draws are the same', () => {
    const together = simulate([model, scale(model, 2)], { seed: 8, trials: 20_000 });
    expect(together.results[0]).toEqual(simulate(model, { seed: 8, trials: 20_000 }));
    expect(together.correlation[0]?.[1]).toBe(1);
  });
  it('takes the first trials of a longer run', () => {
    // The shares of a wave do not matter: a search that needs more groups begins with the same.
    const short = simulate(model, { seed: 8, digits: 1, mostTrials: 100_000 });
    const fixed = simulate(model, { seed: 8, trials: short.trials });
    expect(short.symmetric).toEqual(fixed.symmetric);
    expect(short.mean).toBe(fixed.mean);
  });
});

const BITS = [
  42.095954023078434, 14.376188845844649, 23.38044951947365, 70.85829973696777, 20.66924998905956,
  66.12328891964339,
];

describe('a t source with few degrees of freedom', () => {
  const t = (degreesOfFreedom: number) =>
    about(10, error('t', { standardUncertainty: 0.5, degreesOfFreedom }));
  it('of 2 has an interval and no standard deviation', () => {
    const found = simulate(t(2), { seed: 3, digits: 2 });
    expect(found.standardUncertainty).toBeNull();
    expect(found.reason).toMatch(/2 degrees of freedom.*no standard deviation/);
    expect(found.mean).not.toBeNull();
    expect(found.converged).toBe(true);
    // t(0.975, 2) = 4.302652729911275 (JCGM 100 table G.2). The rule settles an end to δ, of half-length over 1.96: 1.1, so 0.05.
    expect(Math.abs(found.symmetric[1] - (10 + 0.5 * 4.302652729911275))).toBeLessThan(2 * 0.05);
    expect(Math.abs(found.symmetric[0] - (10 - 0.5 * 4.302652729911275))).toBeLessThan(2 * 0.05);
  });
  it('of 1 has no mean either', () => {
    const found = simulate(t(1), { seed: 3, trials: 50_000 });
    expect([found.mean, found.standardUncertainty]).toEqual([null, null]);
    expect(found.reason).toMatch(/no mean/);
    expect(simulate([t(1), constant(1)], { seed: 3, trials: 5000 }).correlation).toEqual([
      [null, null],
      [null, null],
    ]);
  });
  it('of 2.5 has both', () => {
    const found = simulate(t(2.5), { seed: 3, trials: 5000 });
    expect(found.standardUncertainty).toBeGreaterThan(0.5);
    expect(found.reason).toBeNull();
  });
  it('of infinitely many is normal', () => {
    const spec = {
      standardUncertainty: 1,
      distribution: 't',
      degreesOfFreedom: Number.POSITIVE_INFINITY,
    } as const;
    expect(simulate(error('t', spec), { seed: 3, trials: 5000 })).toEqual(
      simulate(normal('t'), { seed: 3, trials: 5000 }),
    );
  });
});

describe('bad input is refused', () => {
  const x = normal('x');
  it.each([0, 1, -0.5, 1.5, Number.NaN])('a coverage of %d', (coverage) =>
    expect(() => simulate(x, { seed: 1, coverage })).toThrow(coded('coverage-bad', /between 0 and 1/)),
  );
  it.each([-1, 1.5, Number.NaN, 2 ** 53])('a seed of %d', (seed) =>
    expect(() => simulate(x, { seed })).toThrow(coded('seed-bad', /whole number from 0/)),
  );
  it.each([0, 199, 1000.5, 1e9, Number.NaN])('%d trials for 95 %%', (trials) =>
    expect(() => simulate(x, { seed: 1, trials })).toThrow(
      coded('trials-bad', /from 200 \(for a coverage of 0.95\)/),
    ),
  );
  it('too few trials for the search', () =>
    expect(() => simulate(x, { seed: 1, digits: 1, mostTrials: 99_999 })).toThrow(
      coded('trials-bad', /from 100000/),
    ));
  it.each([0, 5, 1.5, Number.NaN])('%d digits', (digits) =>
    expect(() => simulate(x, { seed: 1, digits })).toThrow(coded('digits-bad', /1, 2, 3 or 4/)),
  );
  it('trials and digits at once', () =>
    expect(() => simulate(x, { seed: 1, digits: 1, trials: 1000 })).toThrow(
      coded('trials-and-digits', /not both/),
    ));
  it.each([0, 1.5, 65])('%d threads', (workers) =>
    expect(() => simulate(x, { seed: 1, workers })).toThrow(coded('workers-bad', /from 1 to 64/)),
  );
  it.each([
    ['a logarithm that runs below zero', logarithm(about(1, normal('x', 1)))],
    ['a root that does', power(about(1, normal('x', 1)), 0.5)],
  ])('%s, with the number of trials', (_what, quantity) => {
    expect(() => simulate(quantity, { seed: 1, trials: 10_000 })).toThrow(
      coded('trials-not-finite', /of 10000 trials/),
    );
    expect(() => simulate(quantity, { seed: 1, digits: 1 })).toThrow(
      coded('trials-not-finite', /of 100000 trials/),
    );
  });
  it('two sources of one id', () =>
    expect(() => simulate(add(normal('x'), normal('x')), { seed: 1 })).toThrow(coded('source-clash', /"x"/)));
});

describe('the numerical tolerance, JCGM 101 7.9.2', () => {
  it.each([
    // The examples of 7.9.2, from memory: 0.00035 to two digits, 2 to one.
    [0.00035, 2, 0.000005],
    [2, 1, 0.5],
    [0.0754, 1, 0.005],
    [9.96, 1, 5],
    [123, 2, 5],
  ])('of u = %d to %d digits is %d', (u, digits, expected) =>
    expect(numericalTolerance(u, digits)).toBeCloseTo(expected, 12),
  );
  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('of u = %d is refused', (u) =>
    expect(() => numericalTolerance(u, 1)).toThrow(coded('uncertainty-unknown', /zero or more/)),
  );
});

describe('known functions', () => {
  it('have their slopes', () => {
    const x = about(0.7, normal('x', 1e-3));
    const slope = (of: Quantity) => propagate(of).budget[0]!.sensitivity;
    expect(slope(cosine(x))).toBeCloseTo(-Math.sin(0.7), 14);
    expect(slope(sine(x))).toBeCloseTo(Math.cos(0.7), 14);
    expect(slope(exponential(x))).toBeCloseTo(Math.exp(0.7), 14);
    expect(slope(logarithm(x))).toBeCloseTo(1 / 0.7, 14);
  });
  it('are refused where they have no value', () => {
    expect(() => logarithm(constant(0))).toThrow(coded('value-not-finite', /logarithm/));
    expect(() => exponential(constant(1000))).toThrow(coded('value-not-finite', /exponential/));
    expect(() => cosine(constant(1e6))).toThrow(coded('value-not-finite', /cosine/));
  });
});
