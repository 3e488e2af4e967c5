import { describe, expect, it } from 'vitest';
import {
  add,
  constant,
  correlatedErrors,
  cosine,
  errorOf,
  multiply,
  power,
  type Quantity,
  type SourceSpec,
  source,
  subtract,
  validate,
} from '../../src/uncertainty/index.js';

const error = (id: string, spec: Omit<SourceSpec, 'id' | 'name'>) =>
  errorOf(source({ id, name: id, ...spec }));
const normal = (id: string, standardUncertainty = 1) => error(id, { standardUncertainty });
const about = (value: number, of: Quantity) => add(constant(value), of);

describe('first order held against Monte Carlo, JCGM 101 clause 8', () => {
  it('is validated where the model is linear and normal', () => {
    const found = validate(add(normal('a', 3), normal('b', 4)), { seed: 1, digits: 1 });
    expect(found.verdict).toBe('validated');
    expect(found.tolerance).toBe(0.5);
    expect(found.inputs).toEqual(['b', 'a']);
    expect(found.blindTo).toEqual([]);
    expect(found.monteCarlo.converged).toBe(true);
    expect(2 * Math.max(...found.endErrors)).toBeLessThan(0.5 / 5);
    expect(found.sentence).toMatch(
      /^First order is validated at 1 digit: the ends of its 95 % interval lie .* within 0.5\.$/,
    );
  });
  it('is not validated where a rectangle rules', () => {
    // Ends ±1.96·1.0 against ±0.95·√3 = ±1.645: 0.31 apart, δ = 0.05 for u = 1.0.
    const found = validate(error('r', { halfWidth: Math.sqrt(3) }), { seed: 1, digits: 2 });
    expect(found.verdict).toBe('not validated');
    expect(found.tolerance).toBe(0.05);
    expect(Math.abs(found.dLow - 0.3145)).toBeLessThan(0.01);
    expect(found.sentence).toMatch(/not validated at 2 digits: .* safe, but not sharp\.$/);
  });
  it('is undecided where the trials do not settle it', () => {
    // u = 1.0, δ = 0.0005 for four digits; 10^5 trials leave an end uncertain by 0.008.
    const found = validate(normal('a'), { seed: 1, digits: 4, mostTrials: 100_000 });
    expect(found.verdict).toBe('undecided');
    expect(found.monteCarlo.converged).toBe(false);
    expect(found.sentence).toMatch(/undecided.*100000 trials.*below 0.0001\. More trials/);
  });
  it('is not validated before the trials are stable where the distance is beyond doubt', () => {
    const found = validate(error('r', { halfWidth: 1 }), { seed: 1, digits: 4, mostTrials: 100_000 });
    expect(found.monteCarlo.converged).toBe(false);
    expect(found.verdict).toBe('not validated');
  });
  it('has a verdict with t sources of two degrees of freedom, by the ends alone', () => {
    const t = error('t', { standardUncertainty: 1, degreesOfFreedom: 2 });
    const found = validate(about(5, t), { seed: 1, digits: 1 });
    expect(found.monteCarlo.standardUncertainty).toBeNull();
    expect(found.verdict).toBe('validated');
  });
  it('has nothing to say of an exact quantity but that it is', () => {
    const found = validate(constant(4), { seed: 1 });
    expect(found).toMatchObject({
      verdict: 'validated',
      tolerance: 0,
      dLow: 0,
      dHigh: 0,
      inputs: [],
      blindTo: [],
    });
  });
});

describe('where first order is blind', () => {
  it('at a product of two zeros', () => {
    const found = validate(multiply(normal('A'), normal('B')), { seed: 2 });
    expect(found.firstOrder.standardUncertainty).toBe(0);
    expect(found.verdict).toBe('not validated');
    expect(found.blindTo).toEqual(['A', 'B']);
    expect(found.sentence).toMatch(/First order is blind to A and B: .*product of zeros/);
  });
  it('at the cosine of zero, also beside what it sees', () => {
    const model = multiply(about(230, normal('voltage', 0.5)), cosine(normal('phase', 0.15)));
    const found = validate(model, { seed: 2 });
    expect(found.blindTo).toEqual(['phase']);
    expect(found.inputs).toEqual(['voltage', 'phase']);
    expect(found.verdict).toBe('not validated');
  });
  it('says nothing of a source whose slope vanishes because it cancels', () => {
    const shared = normal('offset');
    const found = validate(subtract(add(shared, normal('own')), shared), { seed: 2 });
    expect(found.blindTo).toEqual([]);
  });
  it('says nothing of one that is merely small', () => {
    expect(validate(add(normal('large'), normal('small', 1e-6)), { seed: 2 }).blindTo).toEqual([]);
  });
  it('looks into correlated groups', () => {
    const [a, b] = correlatedErrors({
      id: 'g',
      names: ['A', 'B'],
      covariance: [
        [1, 0.5],
        [0.5, 1],
      ],
    }) as [Quantity, Quantity];
    const found = validate(add(a, power(b, 2)), { seed: 2 });
    expect(found.blindTo).toEqual(['B']);
    expect(found.inputs).toEqual(['A', 'B']);
  });
});
