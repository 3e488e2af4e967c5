import type { Problem } from '../Problem.js';
import type { Prepared } from './Prepared.js';

/**
 * Block means of T = T∞ − (T∞ − T₀)·exp(−t/τ), t from the first reading used: parameters T∞ and T₀ in K, τ in s.
 */
export function approachProblem({ timesS, blockOf, share }: Prepared): Problem {
  const points = share.length;
  const originS = timesS[0]!;
  return {
    points,
    parameters: 3,
    names: ['finalTemperature', 'startTemperature', 'timeConstant'],
    evaluate: (parameters, predicted, jacobian) => {
      const finalK = parameters[0]!;
      const span = finalK - parameters[1]!;
      const rate = 1 / parameters[2]!;
      const decay = jacobian?.subarray(points, 2 * points) ?? new Float64Array(points);
      const aged = jacobian?.subarray(2 * points) ?? null;
      decay.fill(0);
      aged?.fill(0);
      for (let i = 0; i < timesS.length; i += 1) {
        const k = blockOf[i]!;
        if (k < 0) continue;
        const t = timesS[i]! - originS;
        const e = share[k]! * Math.exp(-t * rate);
        decay[k]! += e;
        if (aged !== null) aged[k]! += e * t;
      }
      for (let k = 0; k < points; k += 1) {
        predicted[k] = finalK - span * decay[k]!;
        if (jacobian === null) continue;
        jacobian[k] = 1 - decay[k]!;
        aged![k]! *= -span * rate * rate;
      }
    },
  };
}
