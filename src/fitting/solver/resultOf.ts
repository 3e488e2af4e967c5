import type { FitResult } from '../FitResult.js';
import { covarianceAt } from './covariance.js';
import type { Descent } from './descend.js';
import { hasConverged, stopReason } from './stopReason.js';
import type { Point, Task } from './Task.js';

/** The plain object that a fit returns. */
export function resultOf(task: Task, descent: Descent, restarts: number): FitResult {
  const { point } = descent;
  const atBounds = task.names.filter((_, j) => point.p[j] === task.lower[j] || point.p[j] === task.upper[j]);
  const { covariance, reason, stuck } = covarianceAt(task, descent, atBounds);
  const code = stuck !== null && hasConverged(descent.code) ? 'undetermined' : descent.code;
  const converged = hasConverged(code);
  const why = converged ? reason : (reason ?? 'the fit did not converge');
  const { degreesOfFreedom } = task;
  return {
    parameters: [...point.p],
    names: [...task.names],
    standardErrors: converged ? (covariance?.map((row, j) => Math.sqrt(row[j]!)) ?? null) : null,
    covariance: converged ? covariance : null,
    covarianceReason: why,
    stuckParameter: stuck,
    atBounds,
    residualSumOfSquares: point.squares,
    residualStandardDeviation: degreesOfFreedom > 0 ? Math.sqrt(point.squares / degreesOfFreedom) : null,
    degreesOfFreedom,
    residuals: residualsOf(task, point),
    converged,
    stopReason: stopReason(code, code === 'undetermined' ? reason : null),
    stopCode: code,
    evaluations: task.evaluations(),
    restarts,
  };
}

/** Those of the point where they have no weights in them. */
function residualsOf(task: Task, point: Point): number[] {
  if (task.rootWeights === null) return [...point.residuals];
  const predicted = new Float64Array(task.y.length);
  task.evaluate(point.p, predicted, null);
  return Array.from(task.y, (value, i) => value - predicted[i]!);
}
