import { describe, expect, it } from 'vitest';
import { coverageFactor, poolRuns, type RunsToPool, weightedMean } from '../../src/statistics/index.js';
import { gravitation } from '../reference/statistics.js';

const none = { u: 0, degreesOfFreedom: Infinity };
const pool = (values: number[], uncertainties: number[], more: Partial<RunsToPool> = {}) =>
  poolRuns({ values, uncertainties, shared: none, coverage: 0.95, ...more });

describe('the constant of gravitation, CODATA 2018', () => {
  const values = gravitation.inputs.map((input) => input.value);
  const uncertainties = gravitation.inputs.map((input) => input.u);
  const { computed, published } = gravitation;
  it('has the published mean and, expanded, the published uncertainty', () => {
    const result = weightedMean({ values, uncertainties });
    // The published mean also knows of correlations between some inputs: a tenth of its uncertainty is allowed for.
    expect(Math.abs(result.mean - published.mean)).toBeLessThan(published.u / 10);
    expect(result.standardUncertainty * published.expansion).toBeCloseTo(published.u, 5);
  });
  it('has the mean, uncertainties and Birge ratio computed elsewhere', () => {
    const result = weightedMean({ values, uncertainties });
    expect(result.mean).toBeCloseTo(computed.mean, 12);
    expect(result.standardUncertainty).toBeCloseTo(computed.uInternal, 15);
    expect(result.chiSquared).toBeCloseTo(computed.chiSquared, 6);
    expect(result.birgeRatio).toBeCloseTo(computed.birgeRatio, 8);
    expect(result.externalUncertainty).toBeCloseTo(computed.uExternal, 12);
  });
  it('has the Paule–Mandel variance and mean computed elsewhere', () => {
    const pooled = pool(values, uncertainties);
    expect(pooled.mean).toBeCloseTo(computed.pauleMandelMean, 9);
    expect(pooled.betweenRunStandardDeviation ** 2 / computed.pauleMandelVariance).toBeCloseTo(1, 8);
    expect(pooled.birgeRatio).toBeCloseTo(computed.birgeRatio, 8);
    const widened = uncertainties.map((u) => Math.hypot(u, pooled.betweenRunStandardDeviation));
    expect(weightedMean({ values, uncertainties: widened }).standardUncertainty).toBeCloseTo(
      computed.pauleMandelU,
      10,
    );
  });
});

describe('three runs or more', () => {
  it.each([
    [[1, 2, 3], 0.95],
    [[1, 2, 3], 0.999],
    [[0.91, 0.9, 0.93, 0.95, 0.9], 0.95],
  ])('without uncertainties of their own are a plain t interval: %j at %d', (values, coverage) => {
    const pooled = pool(
      values,
      values.map(() => 0),
      { coverage },
    );
    const n = values.length;
    const mean = values.reduce((a, b) => a + b) / n;
    const s = Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (n - 1));
    const half = (coverageFactor(coverage, n - 1) * s) / Math.sqrt(n);
    expect(pooled.mean).toBeCloseTo(mean, 12);
    expect(pooled.betweenRunStandardDeviation).toBeCloseTo(s, 10);
    expect(pooled.standardUncertainty).toBeCloseTo(s / Math.sqrt(n), 10);
    // The trapezoidal rule over chi-squared is exact to 1e-8 here.
    expect(pooled.interval[0]).toBeCloseTo(mean - half, 7);
    expect(pooled.interval[1]).toBeCloseTo(mean + half, 7);
    // One future value of a normal sample: t·s·√(1 + 1/n).
    expect(pooled.prediction.interval[1] - mean).toBeCloseTo(half * Math.sqrt(n + 1), 7);
    expect(pooled.closedForm.expanded).toBeCloseTo(half, 9);
    expect(pooled.degreesOfFreedom).toBeCloseTo(n - 1, 6);
    expect(pooled).toMatchObject({
      n,
      basis: 'seen',
      degreesOfFreedomBasis: 'back-solved',
      birgeRatio: null,
    });
  });

  it('that are the same leave only the shared uncertainty, with its degrees of freedom', () => {
    for (const nu of [2, 4.5, 20]) {
      const pooled = pool([0.9, 0.9, 0.9], [0, 0, 0], { shared: { u: 0.02, degreesOfFreedom: nu } });
      expect(pooled.standardUncertainty).toBeCloseTo(0.02, 12);
      expect(pooled.coverageFactor).toBeCloseTo(coverageFactor(0.95, nu), 5);
      expect(pooled.degreesOfFreedom / nu).toBeCloseTo(1, 5);
      expect(pooled.interval[1]).toBeCloseTo(0.9 + coverageFactor(0.95, nu) * 0.02, 6);
    }
    const normal = pool([0.9, 0.9, 0.9], [0, 0, 0], { shared: { u: 0.02, degreesOfFreedom: Infinity } });
    expect(normal.coverageFactor).toBeCloseTo(1.95996, 5);
  });

  it('that are the same without any uncertainty have an interval of no width and a finite factor', () => {
    const pooled = pool([2, 2, 2], [0, 0, 0]);
    expect(pooled.interval).toEqual([2, 2]);
    expect(pooled.prediction.interval).toEqual([2, 2]);
    expect(pooled.coverageFactor).toBeCloseTo(coverageFactor(0.95, 2), 12);
  });

  it('of hugely different uncertainty follow the good ones', () => {
    const pooled = pool([1, 1.1, 500], [1e-3, 1e-3, 1e6]);
    expect(pooled.mean).toBeCloseTo(1.05, 6);
    expect(pooled.weights.reduce((a, b) => a + b)).toBeCloseTo(1, 12);
    for (const limit of [...pooled.interval, ...pooled.prediction.interval])
      expect(Number.isFinite(limit)).toBe(true);
    const exact = pool([1, 1.1, 500], [0, 1e-150, 1e150]);
    expect(exact.mean).toBeCloseTo(1.05, 6);
    expect(exact.interval[0]).toBeLessThan(exact.interval[1]);
  });

  it('one of which has no uncertainty and agrees with the others', () => {
    const pooled = pool([1, 1.5, 0.8], [0, 1, 1]);
    expect(pooled.mean).toBe(1);
    expect(pooled.weights).toEqual([1, 0, 0]);
    expect(pooled.interval[0]).toBeLessThan(1);
    expect(pooled.interval[1]).toBeGreaterThan(1);
  });

  it('agree in closed form and mixture, roughly', () => {
    const shared = { u: 0.01, degreesOfFreedom: 30 };
    const pooled = pool([0.9, 0.93, 0.95, 0.91, 0.94], [0.01, 0.01, 0.012, 0.01, 0.011], { shared });
    const half = (pooled.interval[1] - pooled.interval[0]) / 2;
    // The two share everything but the shape of the distribution: a sixth is generous.
    expect(Math.abs(half / pooled.closedForm.expanded - 1)).toBeLessThan(1 / 6);
    expect(half).toBeCloseTo(pooled.coverageFactor * pooled.standardUncertainty, 10);
    expect(pooled.standardUncertainty ** 2).toBeCloseTo(pooled.varianceHK! + 0.01 ** 2, 12);
    expect(coverageFactor(0.95, pooled.degreesOfFreedom)).toBeCloseTo(pooled.coverageFactor, 8);
    expect(pooled.prediction.interval[0]).toBeLessThan(pooled.interval[0]);
    expect(pooled.prediction.interval[1]).toBeGreaterThan(pooled.interval[1]);
  });

  it('move and stretch with the unit', () => {
    const shared = { u: 0.3, degreesOfFreedom: 6 };
    const one = pool([1, 2.5, 3], [0.4, 0.5, 0.6], { shared });
    const other = pool([1010, 1025, 1030], [4, 5, 6], { shared: { ...shared, u: 3 } });
    expect(other.interval[0]).toBeCloseTo(1000 + 10 * one.interval[0], 6);
    expect(other.prediction.interval[1]).toBeCloseTo(1000 + 10 * one.prediction.interval[1], 6);
    expect(other.coverageFactor).toBeCloseTo(one.coverageFactor, 8);
  });
});

describe('one run or two', () => {
  it('one: the assumed spread is in the mean and once more in the prediction', () => {
    const shared = { u: 0.02, degreesOfFreedom: 8 };
    const pooled = pool([0.56], [0.01], { shared, assumedSpread: 0.0112 });
    const u = Math.sqrt(0.01 ** 2 + 0.0112 ** 2 + 0.02 ** 2);
    const nu = (u ** 4 / 0.02 ** 4) * 8;
    expect(pooled.standardUncertainty).toBeCloseTo(u, 12);
    expect(pooled.degreesOfFreedom).toBeCloseTo(nu, 8);
    expect(pooled.interval[1]).toBeCloseTo(0.56 + coverageFactor(0.95, nu) * u, 10);
    const future = Math.hypot(u, 0.0112);
    const futureNu = (future ** 4 / 0.02 ** 4) * 8;
    expect(pooled.prediction.interval[0]).toBeCloseTo(0.56 - coverageFactor(0.95, futureNu) * future, 10);
    expect(pooled).toMatchObject({
      n: 1,
      basis: 'assumed',
      birgeRatio: null,
      varianceHK: null,
      weights: [1],
    });
    expect(pooled.degreesOfFreedomBasis).toBe('Welch–Satterthwaite');
  });
  it('two: weights 1/(u² + s²)', () => {
    const pooled = pool([0.9, 0.94], [0.01, 0.03], { assumedSpread: 0.02 });
    const [a, b] = [1 / (0.01 ** 2 + 0.02 ** 2), 1 / (0.03 ** 2 + 0.02 ** 2)];
    expect(pooled.mean).toBeCloseTo((0.9 * a + 0.94 * b) / (a + b), 12);
    expect(pooled.standardUncertainty).toBeCloseTo(1 / Math.sqrt(a + b), 12);
    expect(pooled.degreesOfFreedom).toBe(Infinity);
    expect(pooled.birgeRatio).toBeCloseTo(0.04 / Math.hypot(0.01, 0.03), 10);
    expect(pooled.betweenRunStandardDeviation).toBe(0.02);
  });
  it('refuse to do without an assumed spread', () => {
    expect(() => pool([0.9], [0.01])).toThrow('With one run the spread from run to run cannot be seen');
    expect(() => pool([0.9, 0.91], [0.01, 0.01], { assumedSpread: 0 })).toThrow('With 2 runs');
  });
});

describe('what is refused', () => {
  it('names the run and the value', () => {
    expect(() => pool([], [])).toThrow('at least 1 value');
    expect(() => pool([1, 2, 3], [1, 1])).toThrow('3 and 2 entries');
    expect(() => pool([1, Number.NaN, 3], [1, 1, 1])).toThrow('Run 2');
    expect(() => pool([1, 2, 3], [1, 1, -1])).toThrow('"run 3"');
    expect(() => pool([1, 2, 3], [1, 1, 1], { coverage: 95 })).toThrow('coverage must lie between 0 and 1');
    expect(() => pool([1, 2, 3], [1, 1, 1], { shared: { u: Number.NaN, degreesOfFreedom: 3 } })).toThrow(
      '"shared"',
    );
    expect(() => pool([1, 2, 3], [1, 1, 1], { shared: { u: 1, degreesOfFreedom: 0 } })).toThrow('"shared"');
  });
});
