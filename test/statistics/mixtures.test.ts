import { describe, expect, it } from 'vitest';
import { coverageFactor, poolRuns } from '../../src/statistics/index.js';
import { mixtures } from '../reference/mixtures.js';

describe('the confidence mixture against another quadrature', () => {
  it.each(mixtures.map((each, k) => [k + 1, each.degreesOfFreedom, each.coverage, each] as const))(
    'case %d: shared uncertainty with %d degrees of freedom, coverage %d',
    (_case, degreesOfFreedom, coverage, { values, uncertainties, u, interval, prediction }) => {
      const pooled = poolRuns({ values, uncertainties, shared: { u, degreesOfFreedom }, coverage });
      // Two millionths of the width: the two digits an uncertainty is printed with, and three to spare.
      const close = (interval[1] - interval[0]) * 2e-6;
      [0, 1].forEach((end) => {
        expect(Math.abs(pooled.interval[end]! - interval[end]!)).toBeLessThan(close);
        expect(Math.abs(pooled.prediction.interval[end]! - prediction[end]!)).toBeLessThan(close);
      });
    },
  );
});

describe('the shared uncertainty in the mixture', () => {
  const runs = { values: [0.55, 0.58, 0.61, 0.57], uncertainties: [0.01, 0.01, 0.012, 0.01], coverage: 0.95 };
  const half = (u: number, degreesOfFreedom: number) => {
    const { interval } = poolRuns({ ...runs, shared: { u, degreesOfFreedom } });
    return (interval[1] - interval[0]) / 2;
  };
  it('widens the interval the more, the fewer its degrees of freedom', () => {
    const widths = [Infinity, 60, 20, 9.9, 5, 2.2, 1.1].map((nu) => half(0.02, nu));
    expect(widths).toEqual(widths.toSorted((a, b) => a - b));
  });
  it('with many degrees of freedom is as if known, with no step where the quadrature changes', () => {
    expect(half(0.02, 1e7) / half(0.02, Infinity)).toBeCloseTo(1, 6);
    expect(half(0.02, 9.999999) / half(0.02, 10.000001)).toBeCloseTo(1, 6);
  });
  it('alone, where it is far larger than all else, gives its own t interval', () => {
    for (const nu of [1, 2.3, 5, 30])
      expect(half(50, nu) / (50 * coverageFactor(0.95, nu))).toBeCloseTo(1, 5);
  });
  it('moves all ends with a common error: the mean stays where the runs are', () => {
    const { mean } = poolRuns({ ...runs, shared: { u: 5, degreesOfFreedom: 3 } });
    expect(mean).toBe(poolRuns({ ...runs, shared: { u: 0, degreesOfFreedom: Infinity } }).mean);
  });
});
