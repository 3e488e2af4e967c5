import { problem as complain } from '../errors/index.js';
import type { FitResult } from './FitResult.js';
import { fitProblem } from './fitProblem.js';
import type { FitOptions, Problem } from './Problem.js';

/** A model of one point at a time, with its data. */
export interface FitInput<X extends number | readonly number[] = number> extends FitOptions {
  /** Prediction at x; NaN where the model has no value. */
  readonly model: (x: X, parameters: readonly number[]) => number;
  /** Derivatives of the prediction, one a parameter; taken by extrapolated differences where left out. */
  readonly jacobian?: (x: X, parameters: readonly number[]) => readonly number[];
  /** A number a point, or a list of numbers where there are several independent variables. */
  readonly x: readonly X[];
  /** Names of the parameters; b1, b2, ... where left out. */
  readonly names?: readonly string[];
}

/**
 * Nonlinear least squares for a plain function of x and the parameters: what Σ w·(y − model)² is smallest for, with standard errors.
 * See `fitProblem` for the method and for what is null when; parameters come in the units of the start values.
 *
 * Without a Jacobian the derivatives are central differences extrapolated to a step of zero (L. F. Richardson, 1911; C. J. F.
 * Ridders, Adv. Eng. Software 4 (1982) 75), good to about ten digits for a smooth model; they stay inside the bounds.
 * Checked against the 27 nonlinear sets of NIST StRD from both published starts.
 *
 * @throws `lengths-differ`, `value-not-finite`, `fit-input-bad` (weights, bounds, start, linear, Jacobian),
 * `fit-fewer-points`, `fit-same-x`, `fit-start-undefined`
 * @example
 * const cooling = fit({
 *   model: (t, [end, drop, k]) => end + drop * Math.exp(-k * t),
 *   names: ['end', 'drop', 'k'],
 *   x: [0, 1, 2, 3, 4, 5],
 *   y: [60.1, 46.2, 37.9, 32.8, 29.8, 27.9],
 *   start: [20, 30, 1],
 * });
 * cooling.parameters // => [25.12, 34.97, 0.505]
 * cooling.standardErrors // => [0.06, 0.06, 0.002]
 * cooling.stopCode // => 'converged'
 */
export function fit<X extends number | readonly number[]>(input: FitInput<X>): FitResult {
  const { model, jacobian, x, names, ...options } = input;
  const parameters = options.start.length;
  checkX(x, options.y, parameters);
  const problem: Problem = {
    points: x.length,
    parameters,
    ...(names ? { names } : {}),
    derivatives: jacobian ? 'exact' : 'numerical',
    evaluate: (p, predicted, into) => {
      const values = Array.from(p);
      for (let i = 0; i < x.length; i += 1) predicted[i] = model(x[i]!, values);
      if (into === null || jacobian === undefined) return;
      for (let i = 0; i < x.length; i += 1) {
        const row = jacobian(x[i]!, values);
        if (row.length !== parameters) throw badRow(i, parameters, row.length);
        for (let j = 0; j < parameters; j += 1) into[j * x.length + i] = row[j]!;
      }
    },
  };
  return fitProblem(problem, options);
}

function badRow(i: number, wanted: number, got: number) {
  return complain('fit-input-bad', {
    what: `The Jacobian at point ${i + 1}`,
    expected: `a list of ${wanted}, one derivative a parameter`,
    got: String(got),
  });
}

/** Two points at the same x can't tell more parameters apart than one: there must be as many x as parameters. */
function checkX(x: readonly (number | readonly number[])[], y: ArrayLike<number>, parameters: number): void {
  if (x.length !== y.length)
    throw complain('lengths-differ', {
      first: 'x',
      firstLength: x.length,
      second: 'y',
      secondLength: y.length,
    });
  x.forEach((each, i) => {
    const bad = [each].flat().find((value) => !Number.isFinite(value));
    if (bad !== undefined)
      throw complain('value-not-finite', { what: `x, point ${i + 1}`, got: String(bad) });
  });
  const different = new Set(x.map((each) => String(each))).size;
  if (different < parameters && x.length >= parameters)
    throw complain('fit-same-x', { parameters, got: different });
}
