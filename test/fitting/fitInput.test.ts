import { describe, expect, it } from 'vitest';
import {
  type FitInput,
  type FitOptions,
  fit as fitModel,
  fitProblem,
  linearFit,
} from '../../src/fitting/index.js';

const good: FitInput = {
  model: (t, [a, b]) => a! + b! * t,
  names: ['base', 'slope'],
  x: [0, 1, 2, 3],
  y: [1, 3, 5, 8],
  start: [0, 1],
};

describe('a fit refuses what is no question', () => {
  it('and nothing is wrong with the one that the others are made from', () => {
    expect(fitModel(good).converged).toBe(true);
  });
  it.each<[string, Partial<FitInput>, string]>([
    [
      'fewer points than parameters',
      { x: [0], y: [1] },
      'A fit of 2 parameters needs at least as many points of weight above zero, but there are 1.',
    ],
    ['points without weight', { weights: [1, 0, 0, 0] }, 'of weight above zero, but there are 1.'],
    [
      'one x again and again',
      { x: [2, 2, 2, 2] },
      'at least as many points at different x, but there are 1.',
    ],
    ['y shorter than x', { y: [1, 2, 3] }, 'x and y must be lists of the same length, but they have 4 and 3'],
    ['weights shorter than x', { weights: [1, 1] }, 'they have 2 and 4 entries'],
    ['NaN in y', { y: [1, Number.NaN, 2, 3] }, 'y, point 2 must be a finite number, but it is NaN.'],
    ['infinite y', { y: [1, 2, 3, Infinity] }, 'y, point 4 must be a finite number, but it is Infinity.'],
    ['NaN in x', { x: [0, 1, Number.NaN, 3] }, 'x, point 3 must be a finite number, but it is NaN.'],
    [
      'a weight below zero',
      { weights: [1, -2, 1, 1] },
      'The weight of point 2 must be zero or more, but got -2.',
    ],
    ['a weight of NaN', { weights: [1, 1, Number.NaN, 1] }, 'The weight of point 3 must be a finite number'],
    ['no weight at all', { weights: [0, 0, 0, 0] }, 'At least one weight must be above zero'],
    [
      'a start below its bound',
      { lower: [0.5, 0] },
      'The start of base must be from 0.5 to Infinity, its bounds, but got 0.',
    ],
    ['a start above its bound', { upper: [1, 0.5] }, 'The start of slope must be from -Infinity to 0.5'],
    [
      'bounds the wrong way round',
      { lower: [0, 2], upper: [1, 1] },
      'The lower bound of slope must be below its upper bound 1, but got 2.',
    ],
    ['a bound of NaN', { lower: [Number.NaN, 0] }, 'The lower bound of base must be a number'],
    [
      'too few bounds',
      { lower: [0] },
      'lower and parameters must be lists of the same length, but they have 1 and 2',
    ],
    ['a start of NaN', { start: [0, Number.NaN] }, 'The start of parameter 2 must be a finite number'],
    [
      'no parameters',
      { start: [], names: [] },
      'The number of parameters must be a whole number above zero, but got 0.',
    ],
    [
      'names for other parameters',
      { names: ['a'] },
      'names and the parameters must be lists of the same length',
    ],
    [
      'a linear parameter that is none',
      { linear: ['slip'] },
      'Each linear parameter must be one of base, slope, or its number counted from 0, but got slip.',
    ],
    ['a linear number that is none', { linear: [2] }, 'but got 2.'],
    [
      'a bound on a linear parameter',
      { linear: [0], lower: [-1, -1] },
      'The linear parameter base must be without bounds, but got -1 to Infinity.',
    ],
    [
      'a model without a value at the start',
      { model: (t) => (t === 2 ? Number.NaN : 1) },
      'The model gives NaN for point 3 at the start (base = 0, slope = 1)',
    ],
    [
      'an infinite model at the start',
      { model: (t) => 1 / t },
      'The model gives Infinity for point 1 at the start',
    ],
    [
      'a Jacobian of the wrong length',
      { jacobian: () => [1] },
      'The Jacobian at point 1 must be a list of 2, one derivative a parameter, but got 1.',
    ],
    [
      'no iterations',
      { iterations: 0 },
      'The number of iterations must be a whole number above zero, but got 0.',
    ],
  ])('%s', (_name, change, message) => {
    expect(() => fitModel({ ...good, ...change })).toThrow(message);
  });
  it('in several variables as well', () => {
    const plane = { model: ([u, v]: readonly number[], [a, b]: readonly number[]) => a! * u! + b! * v! };
    const rest: FitOptions = { y: [1, 2, 3], start: [1, 1] };
    expect(() =>
      fitModel({
        ...plane,
        ...rest,
        x: [
          [0, 1],
          [1, Number.NaN],
          [1, 1],
        ],
      }),
    ).toThrow('x, point 2');
    expect(() =>
      fitModel({
        ...plane,
        ...rest,
        x: [
          [0, 1],
          [0, 1],
          [0, 1],
        ],
      }),
    ).toThrow('different x, but there are 1');
    expect(
      fitModel({
        ...plane,
        ...rest,
        x: [
          [1, 0],
          [0, 1],
          [1, 1],
        ],
      }).parameters[1],
    ).toBeCloseTo(2, 12);
  });
  it('of a whole array as well', () => {
    const problem = { points: 3, parameters: 1, evaluate: (_b: unknown, f: Float64Array) => f.fill(1) };
    expect(() => fitProblem(problem, { y: [1, 2], start: [1] })).toThrow(
      'y and the points of the model must be lists of the same length, but they have 2 and 3',
    );
    expect(() => fitProblem({ ...problem, points: 2.5 }, { y: [1, 2], start: [1] })).toThrow(
      'The number of points must be a whole number above zero, but got 2.5.',
    );
  });
  it('of columns as well', () => {
    expect(() => linearFit({ columns: [], y: [1] })).toThrow('The number of columns must be one or more');
    expect(() => linearFit({ columns: [[1, 2], [1]], y: [1, 2] })).toThrow(
      'column 2 and y must be lists of the same length',
    );
    expect(() => linearFit({ columns: [[1, Infinity]], y: [1, 2] })).toThrow(
      'Column 1, point 2 must be a finite number',
    );
    expect(() => linearFit({ columns: [[1], [2]], y: [1] })).toThrow('A fit of 2 parameters needs');
  });
});
