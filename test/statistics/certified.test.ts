import { describe, expect, it } from 'vitest';
import {
  autocorrelation,
  fQuantile,
  mean,
  oneWayAnova,
  standardDeviation,
} from '../../src/statistics/index.js';
import { annexH5, strdAnova } from '../reference/strd-anova.js';
import { strdAllUnivariate } from '../reference/strd-univariate.js';
import { setsOfFolder } from './strdFolder.js';

/** Correct digits, the measure of NIST: −log10 of the relative error, at most 15. */
const digits = (got: number, certified: number) =>
  got === certified ? 15 : Math.min(15, -Math.log10(Math.abs(got - certified) / Math.abs(certified)));

/**
 * Digits that doubles can hold: all 15 certified ones, but where the data are a large number plus tenths, each value is
 * rounded to 2⁻⁵³ of it, which takes 10⁶/0.1 or 10⁷/0.1 of the digits of the deviations. Exact arithmetic on the same doubles has
 * 9.5 digits of the standard deviation for NumAcc3 and 8.3 for NumAcc4, 12.2 and 11.0 of the autocorrelation.
 */
const reach: Readonly<Record<string, readonly [deviation: number, autocorrelation: number]>> = {
  NumAcc3: [9.4, 12],
  NumAcc4: [8.2, 11],
  // The products nearly cancel: their sum is a 280th of the sum of squares.
  PiDigits: [13.5, 12.5],
  // A spread of 4e-4 about 2.
  Mavro: [12.5, 12.5],
};

interface StoredUnivariate {
  readonly mean: number;
  readonly sd: number;
  readonly lag1_autocorrelation: number;
  readonly data: readonly number[];
}

describe('NIST univariate sets', () => {
  it('are all nine, of the certified sizes', () => {
    const sizes = Object.entries(strdAllUnivariate).map(([name, { data }]) => [name, data.length]);
    expect(Object.fromEntries(sizes)).toEqual({
      PiDigits: 5000,
      Lottery: 218,
      Lew: 200,
      Mavro: 50,
      Michelso: 100,
      NumAcc1: 3,
      NumAcc2: 1001,
      NumAcc3: 1001,
      NumAcc4: 1001,
    });
  });
  const stored = setsOfFolder<StoredUnivariate>('strd_univariate.json').map(
    ([name, { mean: m, sd, lag1_autocorrelation, data }]) =>
      [name, { mean: m, standardDeviation: sd, autocorrelation: lag1_autocorrelation, data }] as const,
  );
  it.each([...Object.entries(strdAllUnivariate), ...stored])('%s', (name, set) => {
    const [ofDeviation, ofAutocorrelation] = reach[name] ?? [13.5, 13];
    expect(digits(mean(set.data), set.mean)).toBeGreaterThan(14.5);
    expect(digits(standardDeviation(set.data), set.standardDeviation)).toBeGreaterThan(ofDeviation);
    expect(digits(autocorrelation(set.data), set.autocorrelation)).toBeGreaterThan(ofAutocorrelation);
  });
});

describe('autocorrelation', () => {
  it('at longer lags, written out', () => {
    // Deviations −2, 0, 3, −1: squares 14; two places on −2·3 + 0·(−1) = −6; three places on 2.
    expect(autocorrelation([1, 3, 6, 2], 2)).toBeCloseTo(-6 / 14, 14);
    expect(autocorrelation([1, 3, 6, 2], 3)).toBeCloseTo(2 / 14, 14);
  });
  it('is refused for a constant, a series too short and a lag that is none', () => {
    expect(() => autocorrelation([2, 2, 2])).toThrow('all of them are 2');
    expect(() => autocorrelation([2])).toThrow('at least 2 values');
    expect(() => autocorrelation([2, 3, 4], 0)).toThrow('at least 1, but it is 0');
    expect(() => autocorrelation([2, Number.NaN, 4])).toThrow('Value 2');
  });
});

/** Digits of F, and of the sums of squares, that the data keep as doubles: 10⁶ and 10¹² plus tenths. */
const reachOfAnova = (name: string) => {
  const set = Number(/^SmLs0(\d)$/.exec(name)?.[1] ?? 0);
  if (set >= 7) return { ofF: 4.1, ofSums: 3.2 };
  if (set >= 4) return { ofF: 10.1, ofSums: 9.8 };
  return name === 'AtmWtAg' ? { ofF: 10, ofSums: 10 } : { ofF: 13, ofSums: 12.5 };
};

interface StoredAnova {
  readonly df_between: number;
  readonly ss_between: number;
  readonly df_within: number;
  readonly ss_within: number;
  readonly F: number;
  readonly r_squared: number;
  readonly residual_sd: number;
  readonly groups: Readonly<Record<string, readonly number[]>> | string;
}

describe('NIST analyses of variance', () => {
  // The three largest sets stand there without their data; they are made by rule here.
  const stored = setsOfFolder<StoredAnova>('strd_anova.json').flatMap(([name, set]) =>
    typeof set.groups === 'string'
      ? []
      : [
          [
            name,
            {
              betweenDegrees: set.df_between,
              betweenSquares: set.ss_between,
              withinDegrees: set.df_within,
              withinSquares: set.ss_within,
              F: set.F,
              rSquared: set.r_squared,
              residualStandardDeviation: set.residual_sd,
              groups: Object.values(set.groups),
            },
          ] as const,
        ],
  );
  it.each([...Object.entries(strdAnova), ...stored])('%s', (name, set) => {
    const table = oneWayAnova(set.groups);
    expect(table.between.degreesOfFreedom).toBe(set.betweenDegrees);
    expect(table.within.degreesOfFreedom).toBe(set.withinDegrees);
    const { ofF, ofSums: least } = reachOfAnova(name);
    expect(digits(table.F, set.F)).toBeGreaterThan(ofF);
    expect(digits(table.between.sumOfSquares, set.betweenSquares)).toBeGreaterThan(least);
    expect(digits(table.within.sumOfSquares, set.withinSquares)).toBeGreaterThan(least);
    expect(digits(table.rSquared, set.rSquared)).toBeGreaterThan(least);
    expect(digits(table.residualStandardDeviation, set.residualStandardDeviation)).toBeGreaterThan(least);
  });
  it.each(Object.entries(strdAnova))('%s: everything that its doubles hold', (_name, set) =>
    expect(digits(oneWayAnova(set.groups).F, set.ofTheDoubles!)).toBeGreaterThan(14),
  );
});

describe('JCGM 100:2008, H.5', () => {
  // Five values of each day with the published mean and standard deviation: the analysis sees no more than these two.
  const groups = annexH5.dayMeans.map((m, j) => {
    const s = annexH5.dayDeviationsMicro[j]! * 1e-6;
    return [m - s, m - s, m, m + s, m + s];
  });
  const table = oneWayAnova(groups);
  const { published, computed } = annexH5;
  const micro = (square: number) => Math.sqrt(square) * 1e6;
  it('has the published mean and standard deviations', () => {
    expect(table.mean).toBeCloseTo(published.mean, 6);
    expect(micro(table.between.meanSquare / 5)).toBeCloseTo(published.ofMeansMicro, 0);
    expect(micro(table.within.meanSquare)).toBeCloseTo(published.pooledMicro, 0);
    expect(micro(table.between.meanSquare)).toBeCloseTo(published.fromMeansMicro, 0);
  });
  it('has F, its limits and the decision', () => {
    expect(table.F).toBeCloseTo(computed.F, 6);
    // The guide forms it from the rounded 5·57²/85².
    expect((5 * published.ofMeansMicro ** 2) / published.pooledMicro ** 2).toBeCloseTo(published.F, 2);
    expect(fQuantile(0.95, 9, 40)).toBeCloseTo(published.F95, 2);
    expect(fQuantile(0.975, 9, 40)).toBeCloseTo(published.F975, 2);
    // Significant at 5 %, not at 2.5 %, as the guide says.
    expect(table.pValue).toBeLessThan(0.05);
    expect(table.pValue).toBeGreaterThan(0.025);
  });
  it('has the variance between days and both uncertainties of the mean', () => {
    expect(micro(table.components.between)).toBeCloseTo(published.betweenMicro, 0);
    expect(micro(table.components.between)).toBeCloseTo(computed.betweenMicro, 5);
    expect(micro(table.between.meanSquare / 50)).toBeCloseTo(published.meanWithBetweenMicro, 0);
    expect(micro(table.between.meanSquare / 50)).toBeCloseTo(computed.meanWithBetweenMicro, 5);
    // Without a day effect all fifty are one sample.
    expect(micro(standardDeviation(groups.flat()) ** 2 / 50)).toBeCloseTo(
      published.meanWithoutBetweenMicro,
      0,
    );
  });
});

describe('analysis of variance', () => {
  it('of groups of unlike size, written out', () => {
    // Means 2, 5, 6; mean of all 3.5; between 3·2.25 + 1·2.25 + 2·6.25 = 21.5; within 2 + 0 + 2 = 4.
    const table = oneWayAnova([[1, 2, 3], [5], [5, 7]].map((group) => group.map((x) => x + 100)));
    expect(table.mean).toBeCloseTo((6 + 5 + 12) / 6 + 100, 10);
    expect(table.within).toMatchObject({ sumOfSquares: 4, degreesOfFreedom: 3 });
    const centre = 23 / 6;
    const between = 3 * (2 - centre) ** 2 + (5 - centre) ** 2 + 2 * (6 - centre) ** 2;
    expect(table.between.sumOfSquares).toBeCloseTo(between, 10);
    expect(table.components.groupSize).toBeCloseTo((6 - 14 / 6) / 2, 12);
    expect(table.components.between).toBeCloseTo((between / 2 - 4 / 3) / ((6 - 14 / 6) / 2), 10);
  });
  it('says a negative component as it is, and infinity where nothing scatters within', () => {
    expect(
      oneWayAnova([
        [1, 5],
        [2, 4],
      ]).components.between,
    ).toBeCloseTo(-2.5, 12);
    expect(
      oneWayAnova([
        [1, 1],
        [2, 2],
      ]),
    ).toMatchObject({ F: Infinity, pValue: 0, rSquared: 1 });
  });
  it('is refused where there is nothing to analyse', () => {
    expect(() => oneWayAnova([[1, 2]])).toThrow('at least 2 groups, but got 1');
    expect(() => oneWayAnova([[1, 2], []])).toThrow('Group 2 needs at least 1 value');
    expect(() => oneWayAnova([[1], [2]])).toThrow('At least one group needs at least 2 values');
    expect(() => oneWayAnova([[1, 1], [1]])).toThrow('values that differ');
    expect(() =>
      oneWayAnova([
        [1, 1],
        [1, Number.NaN],
      ]),
    ).toThrow('Value 2 of group 2');
  });
});
