import type { Descent } from './descend.js';
import { linearise } from './linearise.js';
import { singularValues } from './singularValues.js';
import type { Task } from './Task.js';

/** Covariance of the parameters at a point, or why there is none. */
export interface Uncertainty {
  readonly covariance: number[][] | null;
  readonly reason: string | null;
  /** The parameter that the data say nothing about by itself. */
  readonly stuck: string | null;
}

/** s²(JᵀWJ)⁻¹ by the triangular factor of the scaled Jacobian, s² = rss/(n − p). */
export function covarianceAt(task: Task, descent: Descent, atBounds: readonly string[]): Uncertainty {
  const { point } = descent;
  const none = (reason: string, stuck: string | null = null) => ({ covariance: null, reason, stuck });
  const system = descent.system ?? linearise(task, point);
  if (system === null) return none('the derivatives of the model are not finite where the fit ended');
  const size = point.p.length;
  const unit = system.factor.r.map((value, k) => value / system.norms[system.order[Math.floor(k / size)]!]!);
  const empty = system.norms.indexOf(0);
  if (empty >= 0)
    return none(`the fit does not depend on ${task.names[empty]} where it ended`, task.names[empty]!);
  const svd = singularValues(unit, size, size);
  if (!(svd.s[size - 1]! > task.blindness * svd.s[0]!)) {
    const weakest = svd.weakest.map(Math.abs);
    const name = task.names[system.order[weakest.indexOf(Math.max(...weakest))]!]!;
    return none(`${name} cannot be told from the other parameters with these data`, name);
  }
  if (task.degreesOfFreedom === 0)
    return none('as many parameters as points: no degrees of freedom are left');
  if (atBounds.length > 0)
    return none(
      `${atBounds.join(', ')} ${atBounds.length > 1 ? 'lie' : 'lies'} on a bound, where the errors are not symmetric`,
    );
  const inverse = invertUpper(unit, size);
  const variance = point.squares / task.degreesOfFreedom;
  const covariance = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let a = 0; a < size; a += 1)
    for (let b = 0; b < size; b += 1) {
      let sum = 0;
      for (let k = Math.max(a, b); k < size; k += 1) sum += inverse[k * size + a]! * inverse[k * size + b]!;
      const [i, j] = [system.order[a]!, system.order[b]!];
      covariance[i]![j] = (variance * sum) / system.norms[i]! / system.norms[j]!;
    }
  return { covariance, reason: null, stuck: null };
}

/** Inverse of an upper triangle, both column by column. */
function invertUpper(r: Float64Array, size: number): Float64Array {
  const inverse = new Float64Array(size * size);
  for (let j = 0; j < size; j += 1)
    for (let i = j; i >= 0; i -= 1) {
      let sum = i === j ? 1 : 0;
      for (let k = i + 1; k <= j; k += 1) sum -= r[k * size + i]! * inverse[j * size + k]!;
      inverse[j * size + i] = sum / r[i * size + i]!;
    }
  return inverse;
}
