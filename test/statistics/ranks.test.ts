import { describe, expect, it } from 'vitest';
import { compareTwo, holm, type ResultsToRank, rankIntervals } from '../../src/statistics/index.js';
import { normalNumbers } from './normalNumbers.js';

/** Own uncertainties on the diagonal, one shared by all on top. */
const covarianceOf = (own: readonly number[], shared: number) =>
  own.map((u, i) => own.map((_, j) => shared ** 2 + (i === j ? u * u : 0)));

const rank = (values: number[], covariance: number[][], more: Partial<ResultsToRank> = {}) =>
  rankIntervals({ values, covariance, degreesOfFreedom: Infinity, coverage: 0.95, best: 'highest', ...more });

describe('ranks', () => {
  it('say what is settled and what is not', () => {
    const values = [0.55, 0.62, 0.61, 0.7];
    const ranking = rank(values, covarianceOf([0.01, 0.01, 0.01, 0.01], 0.2));
    expect(ranking.settled).toBe(false);
    expect(ranking.results.map(({ index, rank: r, ranks }) => [index, r, ...ranks])).toEqual([
      [3, 1, 1, 1],
      [1, 2, 2, 3],
      [2, 3, 2, 3],
      [0, 4, 4, 4],
    ]);
    expect(ranking.results[1]).toEqual({
      index: 1,
      value: 0.62,
      rank: 2,
      ranks: [2, 3],
      settled: false,
      behind: [3],
      aheadOf: [0],
      undecidedWith: [2],
    });
    expect(ranking.pairs).toHaveLength(6);
  });
  it('turn round where the lowest is best', () => {
    const covariance = covarianceOf([0.01, 0.01, 0.01], 0);
    const high = rank([1, 2, 3], covariance).results.map((r) => r.index);
    const low = rank([1, 2, 3], covariance, { best: 'lowest' });
    expect(high).toEqual([2, 1, 0]);
    expect(low.results.map((r) => r.index)).toEqual([0, 1, 2]);
    expect(low.settled).toBe(true);
    expect(low.results[0]).toMatchObject({ ranks: [1, 1], aheadOf: [1, 2], behind: [] });
  });
  it('cancel what is shared: a large common error settles nothing and unsettles nothing', () => {
    const own = [0.01, 0.02, 0.03];
    const [without, with_] = [0, 5].map((shared) => rank([0.5, 0.55, 0.62], covarianceOf(own, shared)));
    without!.pairs.forEach((pair, k) => {
      expect(with_!.pairs[k]!.standardUncertainty).toBeCloseTo(pair.standardUncertainty, 6);
      expect(with_!.pairs[k]!.settled).toBe(pair.settled);
    });
    // All shared: the order is certain whatever the values' own uncertainty.
    const certain = rank(
      [1, 1 + 1e-9],
      [
        [4, 4],
        [4, 4],
      ],
    );
    expect(certain.settled).toBe(true);
    expect(certain.pairs[0]).toMatchObject({ standardUncertainty: 0, pValue: 0 });
  });
  it('hold the pairwise p values of the two-sample comparison, adjusted', () => {
    const values = [3, 1, 2.2, 2.9];
    const covariance = covarianceOf([0.3, 0.4, 0.2, 0.5], 1);
    const nu = [1, 2, 3, 4].map((a) => [1, 2, 3, 4].map((b) => 3 * a * b));
    const { pairs } = rank(values, covariance, { degreesOfFreedom: nu });
    const single = pairs.map(({ better, worse }) => {
      const difference = values[better]! - values[worse]!;
      const u = Math.sqrt(
        covariance[better]![better]! + covariance[worse]![worse]! - 2 * covariance[better]![worse]!,
      );
      return compareTwo({
        difference,
        standardUncertainty: u,
        degreesOfFreedom: nu[better]![worse]!,
        coverage: 0.95,
      }).pValue;
    });
    pairs.forEach((pair, k) => {
      expect(pair.pValue).toBeCloseTo(single[k]!, 12);
      expect(pair.adjustedPValue).toBeCloseTo(holm(single)[k]!, 12);
    });
  });
  it('of equal results are all open, in the order given', () => {
    const { results } = rank([2, 2, 2], covarianceOf([0, 0, 0], 1));
    expect(results.map((r) => [r.index, ...r.ranks])).toEqual([
      [0, 1, 3],
      [1, 1, 3],
      [2, 1, 3],
    ]);
  });
});

/** Share of campaigns in which the check of a ranking against the truth holds. */
function share(campaigns: number, once: () => boolean): number {
  let held = 0;
  for (let k = 0; k < campaigns; k += 1) if (once()) held += 1;
  return held / campaigns;
}

describe('ranks in seeded campaigns', () => {
  // 4,000 campaigns: √(0.05·0.95/4000) = 0.34 %; four standard deviations below the promised share. Two of three cells
  // have known variances, the third one pooled from 12 degrees of freedom.
  const campaigns = 4000;
  const least = 0.95 - 4 * Math.sqrt((0.05 * 0.95) / campaigns);
  it.each([
    ['six alike', [0, 0, 0, 0, 0, 0], Infinity, 5],
    ['five, some alike, some apart', [0, 0, 2, 2.5, 6], Infinity, 6],
    ['four apart, variance estimated', [0, 1, 2, 3.5], 12, 7],
  ] as const)('%s: no settled pair is wrong and every true rank is inside', (_name, truth, nu, seed) => {
    const normal = normalNumbers(seed);
    const held = share(campaigns, () => {
      const shared = 3 * normal();
      const values = truth.map((t) => t + shared + normal());
      const estimate =
        nu === Infinity ? 1 : Array.from({ length: nu }, normal).reduce((sum, z) => sum + z * z, 0) / nu;
      const own = truth.map(() => Math.sqrt(estimate));
      const { pairs, results } = rank(values, covarianceOf(own, 3), { degreesOfFreedom: nu });
      // Two that are truly alike are in no order: a settled pair of them is wrong.
      const right = pairs.every((p) => !p.settled || truth[p.better]! > truth[p.worse]!);
      const inside = results.every(({ index, ranks }) => {
        const above = truth.filter((t) => t > truth[index]!).length;
        const notBelow = truth.filter((t) => t >= truth[index]!).length;
        return ranks[0] <= above + 1 && ranks[1] >= notBelow;
      });
      return right && inside;
    });
    expect(held).toBeGreaterThan(least);
    expect(held).toBeLessThan(1);
  });
});

describe('what a ranking refuses', () => {
  it('names what is wrong with the covariance matrix', () => {
    expect(() => rank([1, 2], [[1, 0]])).toThrow('2 rows of 2 entries');
    expect(() => rank([1, 2], [[1, 0], [0]])).toThrow('2 rows of 2 entries');
    expect(() =>
      rank(
        [1, 2],
        [
          [1, 0],
          [0, Number.NaN],
        ],
      ),
    ).toThrow('entry 2, 2 is NaN');
    expect(() =>
      rank(
        [1, 2],
        [
          [1, 0],
          [0, -1],
        ],
      ),
    ).toThrow('variance 2 is -1');
    expect(() =>
      rank(
        [1, 2],
        [
          [1, 0.2],
          [0.3, 1],
        ],
      ),
    ).toThrow('mirror image');
    expect(() =>
      rank(
        [1, 2],
        [
          [1, 2],
          [2, 1],
        ],
      ),
    ).toThrow('correlation beyond 1');
    // Every pair is a correlation, but the three together are impossible.
    const indefinite = [
      [1, 0.9, -0.9],
      [0.9, 1, 0.9],
      [-0.9, 0.9, 1],
    ];
    expect(() => rank([1, 2, 3], indefinite)).toThrow('negative variance');
  });
  it('takes matrices of less than full rank, with a result that has no uncertainty, at any scale', () => {
    for (const scale of [1e-12, 1, 1e12]) {
      const covariance = [
        [2, 2, 0],
        [2, 2, 0],
        [0, 0, 0],
      ].map((row) => row.map((entry) => entry * scale));
      expect(rank([1, 2, 3], covariance).results).toHaveLength(3);
    }
  });
  it('needs two results, degrees of freedom and a coverage', () => {
    expect(() => rank([1], [[1]])).toThrow('at least 2 values');
    expect(() => rank([1, Number.NaN], covarianceOf([1, 1], 0))).toThrow('Result 2');
    const good = [[1, 2], covarianceOf([1, 1], 0)] as const;
    expect(() => rank([...good[0]], good[1], { degreesOfFreedom: 0 })).toThrow('results 2 and 1');
    expect(() => rank([...good[0]], good[1], { degreesOfFreedom: [[1], [1]] })).toThrow('2 and 1 entries');
    expect(() => rank([...good[0]], good[1], { degreesOfFreedom: [[1]] })).toThrow('2 and 1 entries');
    expect(() => rank([...good[0]], good[1], { coverage: 0 })).toThrow('coverage must lie');
  });
});
