import { problem as complain } from '../../errors/index.js';
import type { FitOptions, Problem } from '../Problem.js';
import { boundsCopy, checkCount, checkInside, finiteCopy, weightsCopy } from './checkArrays.js';
import { differences } from './differences.js';
import { linearOf } from './linearOf.js';
import { norm } from './norm.js';
import type { Evaluate, Task } from './Task.js';

const defaultIterations = 500;
/** Of exact derivatives and of extrapolated differences: what may be lost to rounding, with room to spare. */
const blindness = { exact: 1e-13, numerical: 1e-10 };

/** Checks everything that can be checked before the first step, once, and completes it. */
export function checkOptions(problem: Problem, options: FitOptions): Task {
  checkSize('points', problem.points);
  checkSize('parameters', problem.parameters);
  const { points, parameters } = problem;
  const names = problem.names ?? Array.from({ length: parameters }, (_, j) => `b${j + 1}`);
  checkCount('names', names, parameters, 'the parameters');
  if (options.iterations !== undefined) checkSize('iterations', options.iterations);
  const y = finiteCopy('y', 'y, point', options.y, points, 'the points of the model');
  const weights = options.weights ? weightsCopy(options.weights, points, 'the points of the model') : null;
  const start = finiteCopy('start', 'The start of parameter', options.start, parameters, 'the parameters');
  const lower = boundsCopy('lower', options.lower, names, Number.NEGATIVE_INFINITY);
  const upper = boundsCopy('upper', options.upper, names, Number.POSITIVE_INFINITY);
  checkInside(names, start, lower, upper);
  const counted = weights ? weights.filter((w) => w > 0).length : points;
  if (counted < parameters) throw complain('fit-fewer-points', { parameters, got: counted });
  const linear = linearOf(names, options.linear ?? [], lower, upper);
  const rootWeights = weights?.map(Math.sqrt) ?? null;
  const task: Task = {
    ...counting(problem, lower, upper),
    names,
    y,
    rootWeights,
    start,
    lower,
    upper,
    linear,
    nonlinear: names.map((_, j) => j).filter((j) => !linear.includes(j)),
    degreesOfFreedom: counted - parameters,
    iterations: options.iterations ?? defaultIterations,
    blindness: blindness[problem.derivatives ?? 'exact'],
    rounding:
      Number.EPSILON * norm(y.map((value, i) => value * (rootWeights === null ? 1 : rootWeights[i]!))),
  };
  checkStart(task);
  return task;
}

function checkSize(what: string, value: number): void {
  if (!(Number.isInteger(value) && value > 0))
    throw complain('fit-input-bad', {
      what: `The number of ${what}`,
      expected: 'a whole number above zero',
      got: String(value),
    });
}

function counting(
  problem: Problem,
  lower: Float64Array,
  upper: Float64Array,
): Pick<Task, 'evaluate' | 'evaluations'> {
  let evaluations = 0;
  const evaluate: Evaluate = (p, predicted, jacobian) => {
    evaluations += 1;
    problem.evaluate(p, predicted, jacobian);
  };
  const numerical = problem.derivatives === 'numerical';
  return {
    evaluate: numerical ? differences(evaluate, problem.points, lower, upper) : evaluate,
    evaluations: () => evaluations,
  };
}

function checkStart(task: Task): void {
  const predicted = new Float64Array(task.y.length);
  task.evaluate(task.start, predicted, null);
  const bad = predicted.findIndex((value) => !Number.isFinite(value));
  if (bad >= 0)
    throw complain('fit-start-undefined', {
      point: bad + 1,
      got: String(predicted[bad]),
      at: task.names.map((name, j) => `${name} = ${task.start[j]}`).join(', '),
    });
}
