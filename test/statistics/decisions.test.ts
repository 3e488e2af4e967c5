import { describe, expect, it } from 'vitest';
import {
  compareTwo,
  conformity,
  coverageFactor,
  enNumber,
  holm,
  normalCdf,
  normalQuantile,
  studentCdf,
  zetaScore,
} from '../../src/statistics/index.js';
import {
  gearPrinted,
  gearReference,
  gearScores,
  oneLimit,
  twoLimits,
  zener,
} from '../reference/decisions.js';

describe('E_n number', () => {
  it.each(gearScores)('of the gear of %d', (value, expanded, score) => {
    expect(enNumber({ value, expanded }, gearReference).score).toBeCloseTo(score, 12);
  });
  it.each(gearPrinted)('of the gear of %d as printed', (value, printed) => {
    const expanded = gearScores.find(([x]) => x === value)![1];
    expect(enNumber({ value, expanded }, gearReference).score).toBeCloseTo(printed, 3);
  });
  it('is satisfactory up to 1 and beyond it is not', () => {
    const b = { value: 0, expanded: 0.4 };
    expect(enNumber({ value: 0.5, expanded: 0.3 }, b)).toMatchObject({ verdict: 'satisfactory' });
    expect(enNumber({ value: -0.5, expanded: 0.3 }, b)).toMatchObject({ verdict: 'satisfactory' });
    expect(enNumber({ value: -0.5001, expanded: 0.3 }, b)).toMatchObject({ verdict: 'unsatisfactory' });
    expect(enNumber({ value: 1, expanded: 0 }, b).score).toBeCloseTo(2.5, 12);
  });
  it('is refused without any uncertainty', () => {
    expect(() => enNumber({ value: 1, expanded: 0 }, { value: 1, expanded: 0 })).toThrow(
      '"both results" is 0',
    );
    expect(() => enNumber({ value: 1, expanded: -1 }, { value: 1, expanded: 0 })).toThrow('"first result"');
    expect(() => enNumber({ value: 1, expanded: 1 }, { value: 1, expanded: Number.NaN })).toThrow(
      '"second result"',
    );
    expect(() => enNumber({ value: Number.NaN, expanded: 1 }, { value: 1, expanded: 1 })).toThrow(
      'The first result',
    );
  });
});

describe('zeta score', () => {
  it.each([
    [2, 'satisfactory'],
    [-2, 'satisfactory'],
    [2.01, 'questionable'],
    [-2.99, 'questionable'],
    [3, 'unsatisfactory'],
    [-7, 'unsatisfactory'],
  ] as const)('%d is %s', (score, verdict) => {
    // 3-4-5: the combined uncertainty is exactly 5.
    const result = zetaScore(
      { value: 5 * score, standardUncertainty: 3 },
      { value: 0, standardUncertainty: 4 },
    );
    expect(result).toEqual({ score, verdict });
  });
});

describe('the difference of two', () => {
  const compare = (difference: number, u: number, nu: number, coverage = 0.95) =>
    compareTwo({ difference, standardUncertainty: u, degreesOfFreedom: nu, coverage });
  it('has interval, probability and p value that agree with one another', () => {
    for (const nu of [1, 2.5, 8, Infinity])
      for (const d of [-3, -0.1, 0, 0.7, 2.4]) {
        const c = compare(d, 1.2, nu);
        expect(c.interval[1] - d).toBeCloseTo(1.2 * coverageFactor(0.95, nu), 12);
        expect(c.probabilityHigher).toBeCloseTo(studentCdf(d / 1.2, nu), 14);
        expect(c.pValue).toBeCloseTo(2 * Math.min(c.probabilityHigher, 1 - c.probabilityHigher), 14);
        expect(c.settled).toBe(c.pValue < 0.05);
        expect(c.settled).toBe(c.interval[0] > 0 || c.interval[1] < 0);
        expect(compare(-d, 1.2, nu).probabilityHigher).toBeCloseTo(1 - c.probabilityHigher, 14);
      }
  });
  it('without uncertainty is what it is', () => {
    expect(compare(0.1, 0, 5)).toMatchObject({
      probabilityHigher: 1,
      pValue: 0,
      settled: true,
      interval: [0.1, 0.1],
    });
    expect(compare(-0.1, 0, 5)).toMatchObject({ probabilityHigher: 0, pValue: 0, settled: true });
    expect(compare(0, 0, 5)).toMatchObject({ probabilityHigher: 0.5, pValue: 1, settled: false });
  });
  it('keeps small probabilities', () =>
    expect(compare(-12, 1, Infinity).probabilityHigher).toBe(normalCdf(-12)));
  it('refuses what is unknown', () => {
    expect(() => compare(Number.NaN, 1, 5)).toThrow('The difference must be a finite number');
    expect(() => compare(1, Number.NaN, 5)).toThrow('Unknown is never zero');
    expect(() => compare(1, 1, 0)).toThrow('"difference" must be more than zero');
    expect(() => compare(1, 1, 5, 1)).toThrow('coverage must lie between 0 and 1');
  });
});

describe("Holm's adjustment", () => {
  it('steps down, in the order given', () => {
    expect(holm([0.01, 0.04, 0.03, 0.005]).map((p) => Number(p.toFixed(12)))).toEqual([
      0.03, 0.06, 0.06, 0.02,
    ]);
    expect(holm([0.9, 0.8])).toEqual([1, 1]);
    expect(holm([])).toEqual([]);
    expect(holm([0.3])).toEqual([0.3]);
  });
  it('lies between the plain p value and that of Bonferroni, and never falls', () => {
    for (let seed = 1; seed < 50; seed += 1) {
      const list = Array.from({ length: 7 }, (_, k) => (((seed * 7919 + k * 104729) % 1009) / 1009) ** 2);
      const adjusted = holm(list);
      adjusted.forEach((p, k) => {
        expect(p).toBeGreaterThanOrEqual(list[k]!);
        expect(p).toBeLessThanOrEqual(Math.min(1, 7 * list[k]!) + 1e-15);
        list.forEach((other, j) => {
          if (other < list[k]!) expect(adjusted[j]!).toBeLessThanOrEqual(p);
        });
      });
    }
  });
  it('refuses what is no probability', () => expect(() => holm([0.1, 1.2])).toThrow('but it is 1.2'));
});

const guarded = { consumerRisk: 0.05 };

describe('conformity, JCGM 106', () => {
  it('has the example of the Zener diode', () => {
    const { value, standardUncertainty, upper } = zener;
    const judged = conformity({ value, standardUncertainty, upper, limitRule: guarded });
    expect(judged.probabilityConforming).toBeCloseTo(zener.published, 2);
    expect(judged.probabilityConforming).toBeCloseTo(zener.computed, 12);
    expect(judged.verdict).toBe('undecided');
  });
  it.each(oneLimit)('with one limit %d standard uncertainties away', (z, p) => {
    const below = conformity({ value: 3 + 0.2 * z, standardUncertainty: 0.2, lower: 3, limitRule: guarded });
    const above = conformity({ value: 3 - 0.2 * z, standardUncertainty: 0.2, upper: 3, limitRule: guarded });
    for (const judged of [below, above]) {
      expect(judged.probabilityConforming).toBeCloseTo(p, 12);
      expect(judged.probabilityNotConforming).toBeCloseTo(1 - p, 12);
      // 1.645 lies above the exact 1.64485, on the safe side of the guard band.
      expect(judged.verdict).toBe(z >= 1.645 ? 'met' : z <= -1.645 ? 'not met' : 'undecided');
      expect(judged.guardBand).toBeCloseTo(1.6448536269514722 * 0.2, 12);
    }
    expect(below.acceptance).toEqual({ lower: 3 + below.guardBand!, upper: null });
    expect(above.acceptance).toEqual({ lower: null, upper: 3 - above.guardBand! });
    expect(below.rejection.lower).toBeCloseTo(3 - below.guardBand!, 12);
  });
  it.each(twoLimits)('with two limits, Cm = %d, y = %d', (cm, y, p) => {
    const judged = conformity({
      value: 10 + 4 * y,
      standardUncertainty: 1 / cm,
      lower: 10,
      upper: 14,
      limitRule: guarded,
    });
    expect(judged.probabilityConforming).toBeCloseTo(p, 12);
    expect(judged.probabilityConforming + judged.probabilityNotConforming).toBeCloseTo(1, 12);
  });
});

describe('the guard band', () => {
  const between = (value: number, u: number, consumerRisk: number, nu = Infinity) =>
    conformity({
      value,
      standardUncertainty: u,
      degreesOfFreedom: nu,
      lower: 10,
      upper: 14,
      limitRule: { consumerRisk },
    });
  it('between two limits leaves exactly the stated risk at the acceptance limit', () => {
    for (const nu of [2.5, 10, Infinity])
      for (const [u, risk] of [
        [0.1, 0.05],
        [0.5, 0.2],
        [0.3, 0.01],
      ] as const) {
        const { acceptance, guardBand } = between(12, u, risk, nu);
        if (acceptance === null) {
          expect(between(12, u, risk, nu).probabilityNotConforming).toBeGreaterThan(risk);
          continue;
        }
        expect(acceptance.lower! - 10).toBeCloseTo(guardBand!, 12);
        expect(between(acceptance.lower!, u, risk, nu).probabilityNotConforming).toBeCloseTo(risk, 10);
        expect(between(acceptance.upper!, u, risk, nu).probabilityNotConforming).toBeCloseTo(risk, 10);
        expect(between(acceptance.lower! + 1e-6, u, risk, nu).verdict).toBe('met');
        expect(between(acceptance.lower! - 1e-6, u, risk, nu).verdict).toBe('undecided');
        const { rejection } = between(12, u, risk, nu);
        expect(between(rejection.upper! + 1e-6, u, risk, nu).verdict).toBe('not met');
        expect(between(rejection.upper! - 1e-6, u, risk, nu).verdict).toBe('undecided');
      }
  });
  it('is wider between two limits than with one, and the same where the other is far', () => {
    expect(between(12, 0.9, 0.05).guardBand!).toBeGreaterThan(-0.9 * normalQuantile(0.05));
    expect(between(12, 0.1, 0.05).guardBand!).toBeCloseTo(-0.1 * normalQuantile(0.05), 10);
  });
  it('is none where the uncertainty is too large for any value to be accepted', () => {
    const judged = between(12, 3, 0.05);
    expect(judged).toMatchObject({ guardBand: null, acceptance: null, verdict: 'undecided' });
    // Most of the distribution lies outside, but on neither side enough to say which limit is passed.
    expect(between(12, 100, 0.05)).toMatchObject({ verdict: 'undecided' });
    expect(between(12, 100, 0.05).probabilityConforming).toBeLessThan(0.05);
  });
  it('widens with few degrees of freedom', () => {
    const one = (nu: number) =>
      conformity({
        value: 0.83,
        standardUncertainty: 0.01,
        degreesOfFreedom: nu,
        lower: 0.8,
        limitRule: guarded,
      });
    // t(0.95, 3) = 2.353, table of t.
    expect(one(3).guardBand).toBeCloseTo(0.02353, 5);
    expect(one(3).verdict).toBe('met');
    expect(one(1)).toMatchObject({ verdict: 'undecided' });
  });
  it('vanishes by the simple rule and at a risk of one half', () => {
    const at = (value: number) =>
      conformity({ value, standardUncertainty: 0.01, lower: 0.8, limitRule: 'simple' });
    expect(at(0.8)).toMatchObject({ verdict: 'met', guardBand: 0, acceptance: { lower: 0.8, upper: null } });
    expect(at(0.7999)).toMatchObject({ verdict: 'not met' });
    expect(at(0.8).probabilityConforming).toBe(0.5);
    const half = conformity({
      value: 0.8,
      standardUncertainty: 0.01,
      lower: 0.8,
      limitRule: { consumerRisk: 0.5 },
    });
    expect(half).toMatchObject({ verdict: 'met' });
    expect(half.guardBand).toBeCloseTo(0, 15);
  });
});

describe('conformity without doubt, and what is refused', () => {
  it.each([
    [10, 'met', 1],
    [14, 'met', 1],
    [12, 'met', 1],
    [9.999, 'not met', 0],
    [14.001, 'not met', 0],
  ] as const)('of %d without uncertainty: %s', (value, verdict, probabilityConforming) => {
    const judged = conformity({ value, standardUncertainty: 0, lower: 10, upper: 14, limitRule: guarded });
    expect(judged).toMatchObject({
      verdict,
      probabilityConforming,
      probabilityNotConforming: 1 - probabilityConforming,
    });
    expect(judged.acceptance).toEqual({ lower: 10, upper: 14 });
  });
  it('keeps the digits of small probabilities on both sides', () => {
    const far = (value: number) =>
      conformity({ value, standardUncertainty: 1, lower: 0, upper: 30, limitRule: guarded });
    expect(far(-10).probabilityConforming / normalCdf(-10)).toBeCloseTo(1, 12);
    expect(far(40).probabilityConforming / normalCdf(-10)).toBeCloseTo(1, 12);
    expect(far(10).probabilityNotConforming / normalCdf(-10)).toBeCloseTo(1, 12);
  });
  it('needs a limit, in order, a risk and an uncertainty', () => {
    const good = { value: 1, standardUncertainty: 0.1, limitRule: guarded };
    expect(() => conformity(good)).toThrow('neither was given');
    expect(() => conformity({ ...good, lower: 2, upper: 1 })).toThrow('they are 2 and 1');
    expect(() => conformity({ ...good, lower: 2, upper: 2 })).toThrow('must be below');
    for (const consumerRisk of [0, -0.1, 0.6, 5, Number.NaN])
      expect(() => conformity({ ...good, lower: 0, limitRule: { consumerRisk } })).toThrow("consumer's risk");
    expect(() => conformity({ ...good, lower: 0, standardUncertainty: Number.NaN })).toThrow(
      'Unknown is never zero',
    );
    expect(() => conformity({ ...good, lower: 0, degreesOfFreedom: 0 })).toThrow('more than zero');
    expect(() => conformity({ ...good, value: Number.NaN, lower: 0 })).toThrow('The value must be');
    expect(() => conformity({ ...good, lower: -Infinity })).toThrow('The lower limit must be');
  });
});
