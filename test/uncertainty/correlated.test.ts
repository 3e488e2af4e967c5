import { describe, expect, it } from 'vitest';
import { mean } from '../../src/statistics/index.js';
import {
  add,
  type CorrelatedSpec,
  constant,
  correlatedErrors,
  cosine,
  divide,
  errorOf,
  multiply,
  propagate,
  propagateTogether,
  type Quantity,
  scale,
  simulate,
  sine,
  source,
  subtract,
} from '../../src/uncertainty/index.js';
import { impedance } from '../reference/gum.js';
import {
  impedanceFirstApproach,
  impedanceSecondApproach,
  thermometerCalibration,
} from '../reference/gum2.js';

const coded = (code: string, sentence: RegExp) =>
  expect.objectContaining({ code, message: expect.stringMatching(sentence) });

/** Covariance matrix of the means of series read side by side: JCGM 100 5.2.3, equation (17). */
function covarianceOfMeans(series: readonly (readonly number[])[]): number[][] {
  const means = series.map((each) => mean(each));
  return series.map((a, i) =>
    series.map((b, j) => {
      const sum = a.reduce((total, value, k) => total + (value - means[i]!) * (b[k]! - means[j]!), 0);
      return sum / (a.length * (a.length - 1));
    }),
  );
}

const withErrors = (values: readonly number[], errors: readonly Quantity[]) =>
  values.map((value, i) => add(constant(value), errors[i]!));

describe('JCGM 100 annex H.2 with a correlated group', () => {
  const { published, voltageV, currentA, phaseRad } = impedance;
  const series = [voltageV, currentA, phaseRad];

  it('first approach: R, X and Z from the means and their covariance', () => {
    const covariance = covarianceOfMeans(series);
    const errors = correlatedErrors({
      id: 'readings',
      names: ['V', 'I', 'φ'],
      covariance,
      degreesOfFreedom: 4,
    });
    const [voltage, current, phase] = withErrors(
      series.map((each) => mean(each)),
      errors,
    ) as [Quantity, Quantity, Quantity];
    const z = divide(voltage, current);
    const { results, correlation } = propagateTogether([
      multiply(z, cosine(phase)),
      multiply(z, sine(phase)),
      z,
    ]);
    const [r, x, ofZ] = results as [(typeof results)[0], (typeof results)[0], (typeof results)[0]];
    const exact = impedanceFirstApproach;
    expect(r.value).toBeCloseTo(exact.resistance.value, 10);
    expect(r.standardUncertainty).toBeCloseTo(exact.resistance.u, 10);
    expect(x.value).toBeCloseTo(exact.reactance.value, 10);
    expect(x.standardUncertainty).toBeCloseTo(exact.reactance.u, 10);
    expect(ofZ.value).toBeCloseTo(exact.impedance.value, 10);
    expect(ofZ.standardUncertainty).toBeCloseTo(exact.impedance.u, 10);
    expect(correlation[0]?.[1]).toBeCloseTo(exact.correlations.rx, 10);
    expect(correlation[0]?.[2]).toBeCloseTo(exact.correlations.rz, 10);
    expect(correlation[1]?.[2]).toBeCloseTo(exact.correlations.xz, 10);
    // Table H.4 as printed; its u(X) and r(X, Z) carry one unit of the last digit from rounding on the way.
    expect(r.standardUncertainty).toBeCloseTo(published.resistance.u, 3);
    expect(Math.abs(x.standardUncertainty - published.reactance.u)).toBeLessThan(0.001);
    expect(ofZ.standardUncertainty).toBeCloseTo(published.impedance.u, 3);
    expect(correlation[0]?.[1]).toBeCloseTo(published.outputCorrelations.rx, 3);
    // Jointly t with the four degrees of freedom of five sets: the group counts once.
    expect(r.degreesOfFreedom).toBeCloseTo(4, 10);
    const row = r.budget.find((each) => each.correlationOf);
    expect(row?.source.name).toBe('correlation of V, I and φ');
    expect(r.budget.reduce((sum, each) => sum + each.share, 0)).toBeCloseTo(1, 12);
    // Table H.5: without the correlations u(R) would be 0.195; they take most of it away.
    expect(row?.share).toBeCloseTo(1 - (published.withoutCorrelation.r / r.standardUncertainty) ** 2, 0);
    expect(row?.share).toBeLessThan(-6);
  });

  it('second approach: R, X and Z of each set, then their means and covariance', () => {
    const sets = voltageV.map((v, k) => ({ z: v / currentA[k]!, phase: phaseRad[k]! }));
    const of = [
      sets.map(({ z, phase }) => z * Math.cos(phase)),
      sets.map(({ z, phase }) => z * Math.sin(phase)),
      sets.map(({ z }) => z),
    ];
    const errors = correlatedErrors({
      id: 'results',
      names: ['R', 'X', 'Z'],
      covariance: covarianceOfMeans(of),
      degreesOfFreedom: 4,
    });
    const values = of.map((each) => mean(each));
    const { results, correlation } = propagateTogether(withErrors(values, errors));
    const { computed, ...printed } = impedanceSecondApproach;
    [computed.resistance, computed.reactance, computed.impedance].forEach((expected, i) => {
      expect(results[i]?.value).toBeCloseTo(expected.value, 10);
      expect(results[i]?.standardUncertainty).toBeCloseTo(expected.u, 10);
    });
    [printed.resistance, printed.reactance, printed.impedance].forEach((expected, i) => {
      expect(results[i]?.value).toBeCloseTo(expected.value, 3);
      expect(Math.abs(results[i]!.standardUncertainty - expected.u)).toBeLessThan(0.001);
    });
    expect(correlation[0]?.[1]).toBeCloseTo(computed.correlations.rx, 10);
    expect(correlation[0]?.[2]).toBeCloseTo(computed.correlations.rz, 10);
    expect(correlation[1]?.[2]).toBeCloseTo(computed.correlations.xz, 10);
    expect(correlation[2]?.[2]).toBe(1);
  });
});

describe('JCGM 100 annex H.3, from the readings to a prediction', () => {
  const { readingsC, correctionsK, published, computed } = thermometerCalibration;
  const x = readingsC.map((reading) => reading - 20);
  const n = x.length;
  const [sx, sxx] = [x.reduce((s, v) => s + v, 0), x.reduce((s, v) => s + v * v, 0)];
  const [sy, sxy] = [
    correctionsK.reduce((s, v) => s + v, 0),
    correctionsK.reduce((s, v, i) => s + v * x[i]!, 0),
  ];
  const determinant = n * sxx - sx * sx;
  const intercept = (sxx * sy - sx * sxy) / determinant;
  const slope = (n * sxy - sx * sy) / determinant;
  const rss = correctionsK.reduce((s, v, i) => s + (v - intercept - slope * x[i]!) ** 2, 0);
  const variance = rss / (n - 2);
  const covariance = [
    [(variance * sxx) / determinant, (-variance * sx) / determinant],
    [(-variance * sx) / determinant, (variance * n) / determinant],
  ];
  const errors = correlatedErrors({ id: 'line', names: ['y1', 'y2'], covariance, degreesOfFreedom: n - 2 });
  const [y1, y2] = withErrors([intercept, slope], errors) as [Quantity, Quantity];
  const prediction = add(y1, scale(y2, 30 - 20));

  it('gives the published parameters', () => {
    const { results, correlation } = propagateTogether([y1, y2]);
    expect(results[0]?.value).toBeCloseTo(published.intercept.value, 4);
    expect(results[0]?.standardUncertainty).toBeCloseTo(published.intercept.u, 4);
    expect(results[1]?.value).toBeCloseTo(published.slope.value, 5);
    expect(results[1]?.standardUncertainty).toBeCloseTo(published.slope.u, 5);
    expect(correlation[0]?.[1]).toBeCloseTo(published.correlation, 3);
  });
  it('gives the published correction at 30 °C', () => {
    const found = propagate(prediction);
    expect(found.value).toBeCloseTo(published.at30.value, 4);
    expect(found.standardUncertainty).toBeCloseTo(published.at30.u, 4);
    expect(found.standardUncertainty).toBeCloseTo(computed.at30.u, 12);
    expect(found.degreesOfFreedom).toBeCloseTo(published.degreesOfFreedom, 10);
    expect(found.expandedUncertainty).toBeCloseTo(computed.at30.expanded95, 12);
  });
  it('gives the same interval by Monte Carlo: jointly t', () => {
    const found = simulate(prediction, { seed: 33, trials: 400_000 });
    // Standard error of an end: √(p(1 − p)/M) over the density of t9 at its 97.5 % point, 0.0342/u; five of them.
    const standardError = (Math.sqrt((0.025 * 0.975) / 400_000) / 0.0342) * computed.at30.u;
    const { value, expanded95 } = computed.at30;
    expect(Math.abs(found.symmetric[0] - (value - expanded95))).toBeLessThan(5 * standardError);
    expect(Math.abs(found.symmetric[1] - (value + expanded95))).toBeLessThan(5 * standardError);
  });
});

describe('a correlated group', () => {
  const matrix = [
    [4, -1.2, 0.3],
    [-1.2, 1, 0.1],
    [0.3, 0.1, 0.5],
  ];
  const group = () => correlatedErrors({ id: 'g', names: ['a', 'b', 'c'], covariance: matrix });

  it('may be given by correlations, and then is the same', () => {
    const standardUncertainties = matrix.map((row, i) => Math.sqrt(row[i]!));
    const correlation = matrix.map((row, i) =>
      row.map((entry, j) => entry / (standardUncertainties[i]! * standardUncertainties[j]!)),
    );
    const other = correlatedErrors({ id: 'g', names: ['a', 'b', 'c'], correlation, standardUncertainties });
    const [first, second] = [group(), other].map((errors) =>
      propagate(add(errors[0]!, scale(errors[1]!, 2), errors[2]!)),
    );
    expect(second!.standardUncertainty).toBeCloseTo(first!.standardUncertainty, 12);
  });
  it('stands beside independent sources, and in part', () => {
    const errors = group();
    const alone = errorOf(source({ id: 's', name: 's', standardUncertainty: 1.5 }));
    const found = propagate(add(errors[0]!, errors[1]!, alone));
    expect(found.standardUncertainty).toBeCloseTo(Math.sqrt(4 + 1 - 2.4 + 2.25), 12);
    expect(found.budget.map((row) => row.source.name)).toEqual(['a', 'correlation of a and b', 's', 'b']);
    expect(propagate(errors[2]!).budget).toHaveLength(1);
  });
  it('of less than full rank is fine: a difference that is known exactly', () => {
    const [a, b] = correlatedErrors({
      id: 'same',
      names: ['a', 'b'],
      covariance: [
        [4, 4],
        [4, 4],
      ],
    }) as [Quantity, Quantity];
    expect(propagate(subtract(a, b)).standardUncertainty).toBe(0);
    expect(simulate(subtract(a, b), { seed: 1, trials: 10_000 }).standardUncertainty).toBe(0);
    expect(propagate(add(a, b)).standardUncertainty).toBe(4);
  });
  it('is drawn with its covariance', () => {
    const trials = 400_000;
    const { results, correlation } = simulate(group(), { seed: 12, trials });
    results.forEach((each, i) => {
      const u = Math.sqrt(matrix[i]![i]!);
      expect(Math.abs(each.standardUncertainty! - u)).toBeLessThan((5 * u) / Math.sqrt(2 * trials));
    });
    for (const [i, j] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const) {
      const r = matrix[i]![j]! / Math.sqrt(matrix[i]![i]! * matrix[j]![j]!);
      // Standard error of a correlation of normals: (1 − r²)/√M.
      expect(Math.abs(correlation[i]![j]! - r)).toBeLessThan((5 * (1 - r * r)) / Math.sqrt(trials));
    }
  });

  const two = (covariance: readonly (readonly number[])[], more: object = {}) =>
    ({ id: 'fit', names: ['κ', 'UA'], covariance, ...more }) as CorrelatedSpec;
  const byR = (r: number, u: readonly number[] = [1, 2], diagonal = 1) =>
    ({
      id: 'fit',
      names: ['κ', 'UA'],
      correlation: [
        [diagonal, r],
        [r, 1],
      ],
      standardUncertainties: u,
    }) as CorrelatedSpec;
  const refusals: [string, CorrelatedSpec, string, RegExp][] = [
    [
      'a negative variance',
      two([
        [1, 0],
        [0, -0.5],
      ]),
      'variance-negative',
      /"UA" in "fit" is -0.5/,
    ],
    [
      'a matrix that is not symmetric',
      two([
        [1, 0.2],
        [0.3, 1],
      ]),
      'covariance-not-symmetric',
      /κ and UA is 0.2 .* UA and κ is 0.3/,
    ],
    [
      'an indefinite matrix',
      two([
        [1, 2],
        [2, 1],
      ]),
      'covariance-indefinite',
      /"UA".* is -3 of it; zero or more/,
    ],
    [
      'a covariance beside a variance of zero',
      two([
        [0, 0.5],
        [0.5, 1],
      ]),
      'covariance-indefinite',
      /"UA".*below zero/,
    ],
    [
      'an unknown entry',
      two([
        [1, Number.NaN],
        [Number.NaN, 1],
      ]),
      'covariance-unknown',
      /κ and UA is NaN.*Unknown is never zero/,
    ],
    ['a wrong shape', two([[1]]), 'covariance-shape', /2 rows of 2 numbers.*rows of 1 numbers/],
    [
      'zero degrees of freedom',
      two(
        [
          [1, 0],
          [0, 1],
        ],
        { degreesOfFreedom: 0 },
      ),
      'degrees-of-freedom-bad',
      /"fit" must be more than zero/,
    ],
    [
      'a name that stands twice',
      two(
        [
          [1, 0],
          [0, 1],
        ],
        { names: ['κ', 'κ'] },
      ),
      'names-repeat',
      /"κ" stands twice/,
    ],
    ['a correlation above one', byR(1.2), 'correlation-range', /κ and UA in "fit" is 1.2/],
    [
      'a correlation with itself of 0.9',
      byR(0.1, [1, 2], 0.9),
      'correlation-diagonal',
      /"κ" with itself must be 1.*0.9/,
    ],
    ['an unknown standard uncertainty', byR(0.1, [1, Number.NaN]), 'uncertainty-unknown', /"UA".*NaN/],
    ['too few standard uncertainties', byR(0.1, [1]), 'covariance-shape', /1 standard uncertainties/],
  ];
  it.each(refusals)('with %s is refused', (_what, spec, code, sentence) =>
    expect(() => correlatedErrors(spec)).toThrow(coded(code, sentence)),
  );
  it('names the error at which three correlations contradict each other', () => {
    const correlation = [
      [1, 0.9, 0.9],
      [0.9, 1, -0.9],
      [0.9, -0.9, 1],
    ];
    const spec = { id: 'three', names: ['a', 'b', 'c'], correlation, standardUncertainties: [1, 1, 1] };
    expect(() => correlatedErrors(spec)).toThrow(
      coded('covariance-indefinite', /"c" shares with those before/),
    );
  });
  it('is one object: another of the same id beside it is a clash', () => {
    const [a] = group() as [Quantity];
    const [, b] = group() as [Quantity, Quantity];
    expect(() => simulate(add(a, b), { seed: 1, trials: 1000 })).toThrow(coded('source-clash', /"g"/));
    expect(() => propagate(add(a, b))).toThrow(coded('source-clash', /"g"/));
    expect(() => propagateTogether([a, group()[0]!])).toThrow(coded('source-clash', /"g:a"/));
  });
});

describe('several results together', () => {
  it('have covariances by what they share', () => {
    const error = (id: string, u: number) => errorOf(source({ id, name: id, standardUncertainty: u }));
    const [shared, own] = [error('shared', 3), error('own', 4)];
    const { covariance, correlation } = propagateTogether([shared, add(scale(shared, 2), own), constant(5)]);
    expect(covariance).toEqual([
      [9, 18, 0],
      [18, 52, 0],
      [0, 0, 0],
    ]);
    expect(correlation[0]?.[1]).toBeCloseTo(18 / Math.sqrt(9 * 52), 12);
    expect(correlation[2]).toEqual([null, null, null]);
  });
  it('are refused where there are none', () => {
    expect(() => propagateTogether([])).toThrow(coded('no-quantities', /at least one/));
    expect(() => simulate([], { seed: 1 })).toThrow(coded('no-quantities', /at least one/));
  });
});
