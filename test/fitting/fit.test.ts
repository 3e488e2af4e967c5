import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { describe, expect, it } from 'vitest';
import {
  type FitInput,
  type FitResult,
  fit as fitModel,
  fitPolynomial,
  fitProblem,
  linearFit,
} from '../../src/fitting/index.js';
import { strdModels } from '../reference/strdModels.mjs';
import { strdNonlinear } from '../reference/strdNonlinear.js';
import { normals, uniforms } from './seeded.js';

/** A vat that cools: end + drop·exp(−rate·t). */
const cooling = (t: number, [end, drop, rate]: readonly number[]) => end! + drop! * Math.exp(-rate! * t);
const coolingSlopes = (t: number, [, drop, rate]: readonly number[]) => {
  const e = Math.exp(-rate! * t);
  return [1, e, -drop! * t * e];
};
const x = Array.from({ length: 30 }, (_, i) => i / 3);
const truth = [20, 45, 0.35];

function noisy(seed: number, sigma = 0.2): number[] {
  const normal = normals(seed);
  return x.map((t) => cooling(t, truth) + sigma * normal());
}

const usual = (y: readonly number[]): FitInput => ({
  model: cooling,
  jacobian: coolingSlopes,
  names: ['end', 'drop', 'rate'],
  x,
  y,
  start: [10, 30, 1],
});

/** Relative to the wanted values. */
function expectClose(got: readonly number[], wanted: readonly number[], tolerance: number): void {
  expect(got).toHaveLength(wanted.length);
  got.forEach((value, j) => {
    expect(Math.abs(value / wanted[j]! - 1), `${value} for ${wanted[j]}`).toBeLessThan(tolerance);
  });
}

/** The optimum is known to the square root of the least difference that the slope shows: ten digits are left with room. */
const sameOptimum = 1e-9;

describe('exact data', () => {
  it.each(Array.from({ length: 20 }, (_, seed) => seed))('give the parameters back, seed %i', (seed) => {
    const uniform = uniforms(seed);
    const wanted = [10 + 20 * uniform(), 20 + 60 * uniform(), 0.1 + uniform()];
    const found = fitModel(usual(x.map((t) => cooling(t, wanted))));
    expect(found).toMatchObject({ converged: true, stopCode: 'exact', restarts: 0, degreesOfFreedom: 27 });
    // ε of y, times the standard errors per deviation, which are below a hundred here.
    expectClose(found.parameters, wanted, 1e-12);
  });
  it('give them back without derivatives', () => {
    const { jacobian: _, ...plain } = usual(x.map((t) => cooling(t, truth)));
    expectClose(fitModel(plain).parameters, truth, 1e-12);
  });
  it('with as many points as parameters leave no standard errors', () => {
    const few = [0, 2, 5];
    const found = fitModel({ ...usual(few.map((t) => cooling(t, truth))), x: few });
    expect(found).toMatchObject({
      converged: true,
      degreesOfFreedom: 0,
      residualStandardDeviation: null,
      standardErrors: null,
      covariance: null,
    });
    expect(found.covarianceReason).toMatch('no degrees of freedom');
    expectClose(found.parameters, truth, 1e-12);
  });
});

describe('the result', () => {
  const y = noisy(1);
  const found = fitModel(usual(y));
  it('is a plain object that survives JSON', () => {
    expect(JSON.parse(JSON.stringify(found))).toEqual(found);
    expect(found.names).toEqual(['end', 'drop', 'rate']);
  });
  it('holds residuals that belong to its parameters and its sum', () => {
    found.residuals.forEach((residual, i) => {
      expect(residual).toBeCloseTo(y[i]! - cooling(x[i]!, found.parameters), 12);
    });
    const sum = found.residuals.reduce((total, residual) => total + residual ** 2, 0);
    expectClose(
      [sum, found.residualStandardDeviation! ** 2 * 27],
      Array(2).fill(found.residualSumOfSquares),
      1e-12,
    );
  });
  it('is at the bottom: small changes in any direction are worse', () => {
    for (let j = 0; j < 3; j += 1)
      for (const sign of [-1, 1]) {
        const p = found.parameters.map((b, k) => b + (k === j ? sign * 1e-3 * found.standardErrors![j]! : 0));
        const sum = x.reduce((total, t, i) => total + (y[i]! - cooling(t, p)) ** 2, 0);
        expect(sum).toBeGreaterThan(found.residualSumOfSquares);
      }
  });
  it('is the same without derivatives, which are good to about ten digits', () => {
    const { jacobian: _, ...plain } = usual(y);
    const numerical = fitModel(plain);
    expectClose(numerical.parameters, found.parameters, sameOptimum);
    expectClose(numerical.standardErrors!, found.standardErrors!, sameOptimum);
    expect(numerical.evaluations).toBeGreaterThan(found.evaluations);
  });
  it('counts every evaluation of the model', () => {
    let calls = 0;
    const counted = fitModel({
      ...usual(y),
      model: (t, p) => {
        calls += 1;
        return cooling(t, p);
      },
    });
    expect(counted.evaluations).toBe(calls / x.length);
  });
  it('is the same every time', () => expect(fitModel(usual(y))).toEqual(found));
});

describe('units change nothing but units', () => {
  const y = noisy(2);
  const plain = fitModel(usual(y));
  /** Fits with x, y and the parameters in other units, and brings the result back. */
  const inUnits = (ofX: number, ofY: number, ofP: readonly number[]): FitResult => {
    const own = (p: readonly number[]) => p.map((value, j) => value * ofP[j]!);
    return fitModel({
      model: (t, p) => cooling(t / ofX, own(p)) * ofY,
      jacobian: (t, p) => coolingSlopes(t / ofX, own(p)).map((slope, j) => slope * ofY * ofP[j]!),
      x: x.map((t) => t * ofX),
      y: y.map((value) => value * ofY),
      start: [10, 30, 1].map((value, j) => value / ofP[j]!),
    });
  };
  it.each<[string, number, number, number[]]>([
    ['x', 3600, 1, [1, 1, 1]],
    ['y', 1, 1e-7, [1, 1, 1]],
    ['y, large', 1, 1e9, [1, 1, 1]],
    ['parameters', 1, 1, [1e-6, 1e5, 1e3]],
    ['all', 60, 1e3, [1e8, 1e-4, 7]],
  ])('of %s', (_name, ofX, ofY, ofP) => {
    const found = inUnits(ofX, ofY, ofP);
    expectClose(
      found.parameters,
      plain.parameters.map((b, j) => b / ofP[j]!),
      sameOptimum,
    );
    expectClose(
      found.standardErrors!,
      plain.standardErrors!.map((u, j) => u / ofP[j]!),
      sameOptimum,
    );
    expect(found.stopCode).toBe(plain.stopCode);
  });
});

describe('weights', () => {
  const y = noisy(3);
  it('of whole numbers count a point that often', () => {
    const weights = x.map((_, i) => 1 + (i % 3));
    const repeated = x.flatMap((_, i) => Array<number>(weights[i]!).fill(i));
    const once = fitModel({ ...usual(y), weights });
    const often = fitModel({ ...usual(repeated.map((i) => y[i]!)), x: repeated.map((i) => x[i]!) });
    expectClose(once.parameters, often.parameters, sameOptimum);
    expectClose([once.residualSumOfSquares], [often.residualSumOfSquares], 1e-12);
    // Points seen twice aren't two points: s² is over fewer degrees of freedom.
    const inflation = Math.sqrt(often.degreesOfFreedom / once.degreesOfFreedom);
    expectClose(
      once.standardErrors!,
      often.standardErrors!.map((u) => u * inflation),
      sameOptimum,
    );
  });
  it('are relative', () => {
    const weights = x.map((_, i) => 1 + (i % 3));
    const one = fitModel({ ...usual(y), weights });
    const other = fitModel({ ...usual(y), weights: weights.map((w) => 1e6 * w) });
    expectClose(other.standardErrors!, one.standardErrors!, sameOptimum);
  });
  it('of zero leave a point out', () => {
    const without = fitModel({ ...usual(y.slice(0, 25)), x: x.slice(0, 25) });
    const wrong = y.map((value, i) => (i < 25 ? value : 1e6));
    const weights = x.map((_, i) => (i < 25 ? 1 : 0));
    const found = fitModel({ ...usual(wrong), weights });
    expectClose(found.parameters, without.parameters, sameOptimum);
    expectClose(found.standardErrors!, without.standardErrors!, sameOptimum);
    expect(found.degreesOfFreedom).toBe(22);
    expect(found.residuals[29]).toBeGreaterThan(9e5);
  });
});

describe('a linear model', () => {
  const y = noisy(4);
  const line = { model: (t: number, [a, b]: readonly number[]) => a! + b! * t, x, y };
  const polynomial = fitPolynomial({ x, y, degree: 1 });
  it('is solved in one step where all parameters are called linear', () => {
    const found = fitModel({ ...line, jacobian: (t) => [1, t], start: [0, 0], linear: [0, 1] });
    expect(found).toMatchObject({ stopCode: 'one-step', converged: true });
    expectClose(found.parameters, polynomial.parameters, 1e-12);
  });
  it('takes one step of the general method as well', () => {
    // The first step is as long as the trust region lets it be; a start that is no worse than the size of the answer fits in.
    const found = fitModel({ ...line, jacobian: (t) => [1, t], start: [100, -10] });
    // Start, derivatives; step, its curvature probe and derivatives; one undamped step more; covariance and residuals.
    expect(found.evaluations).toBeLessThanOrEqual(12);
    expectClose(found.parameters, polynomial.parameters, 1e-11);
  });
  it('has the covariance of a straight line by the closed formula', () => {
    const found = fitModel({ ...line, start: [1, 1] });
    const mean = x.reduce((sum, t) => sum + t, 0) / x.length;
    const spread = x.reduce((sum, t) => sum + (t - mean) ** 2, 0);
    const variance = found.residualSumOfSquares / (x.length - 2);
    const wanted = [
      [variance * (1 / x.length + mean ** 2 / spread), (-variance * mean) / spread],
      [(-variance * mean) / spread, variance / spread],
    ];
    found.covariance!.forEach((row, j) => {
      expectClose(row, wanted[j]!, sameOptimum);
    });
  });
  it('agrees with the linear fit', () => {
    const found = linearFit({ columns: [x.map(() => 1), x], y });
    expectClose(found.parameters, polynomial.parameters, 1e-12);
    expectClose(found.standardErrors!, polynomial.standardErrors!, 1e-12);
    expect(found.names).toEqual(['b1', 'b2']);
  });
});

describe('variable projection', () => {
  const y = noisy(5);
  const plain = fitModel(usual(y));
  it.each([
    ['by name', ['end', 'drop']],
    ['by number', [1, 0]],
    ['one of two', ['drop']],
  ] as const)('%s finds the same', (_name, linear) => {
    const found = fitModel({ ...usual(y), linear });
    expectClose(found.parameters, plain.parameters, sameOptimum);
    expectClose(found.standardErrors!, plain.standardErrors!, sameOptimum);
    expect(found.stopCode).toBe('converged');
  });
  it('does not mind the start of the linear parameters', () => {
    const found = fitModel({ ...usual(y), linear: ['end', 'drop'], start: [-1e12, 0, 1] });
    // A start of 1e12 leaves 4 digits after the point until it is solved again.
    expectClose(found.parameters, plain.parameters, sameOptimum);
  });
  it('works with numerical derivatives', () => {
    const { jacobian: _, ...numerical } = usual(y);
    const found = fitModel({ ...numerical, linear: ['end', 'drop'] });
    expectClose(found.parameters, plain.parameters, sameOptimum);
  });
});

describe('a problem of whole arrays', () => {
  it('of 30,000 points gives what the points give one by one', () => {
    const normal = normals(6);
    const times = Array.from({ length: 30_000 }, (_, i) => i / 3000);
    const y = times.map((t) => cooling(t, truth) + 0.2 * normal());
    const whole = fitProblem(
      {
        points: times.length,
        parameters: 3,
        evaluate: ([end, drop, rate], predicted, jacobian) => {
          for (let i = 0; i < times.length; i += 1) {
            const e = Math.exp(-rate! * times[i]!);
            predicted[i] = end! + drop! * e;
            if (jacobian === null) continue;
            jacobian[i] = 1;
            jacobian[times.length + i] = e;
            jacobian[2 * times.length + i] = -drop! * times[i]! * e;
          }
        },
      },
      { y: Float64Array.from(y), start: [10, 30, 1] },
    );
    const points = fitModel({ ...usual(y), x: times });
    expectClose(whole.parameters, points.parameters, sameOptimum);
    expect(whole.names).toEqual(['b1', 'b2', 'b3']);
    // Within four standard errors of the truth: missed by chance in 1 of 5,000 seeds.
    truth.forEach((value, j) => {
      expect(Math.abs(whole.parameters[j]! - value)).toBeLessThan(4 * whole.standardErrors![j]!);
    });
  });
});

describe('another fitter, ml-levenberg-marquardt', () => {
  it.each(['Misra1b', 'Misra1c', 'Misra1d', 'Chwirut2', 'DanWood', 'Rat42'])('agrees on %s', (name) => {
    const set = strdNonlinear[name]!;
    const { model } = strdModels[name]!;
    const start = set.parameters.map((row) => row[1]);
    const ours = fitModel({ model, x: set.x, y: set.y, start });
    const theirs = levenbergMarquardt(
      { x: [...set.x], y: [...set.y] },
      (parameters: number[]) => (at: number) => model(at, parameters),
      {
        initialValues: start,
        gradientDifference: start.map((value) => 1e-6 * Math.abs(value)),
        centralDifference: true,
        damping: 1e-3,
        maxIterations: 1000,
        errorTolerance: 1e-14,
        improvementThreshold: 1e-14,
      },
    );
    // Its central differences and its stop by the sum of squares leave about five digits.
    expectClose(theirs.parameterValues, ours.parameters, 1e-5);
    expect(ours.residualSumOfSquares).toBeLessThanOrEqual(theirs.parameterError * (1 + 1e-9));
  });
});
