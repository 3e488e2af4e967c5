import type { Problem } from '../Problem.js';
import type { Prepared } from './Prepared.js';
import { quickestPass } from './quickestPass.js';

/**
 * Block means of C·dT/dt = κ·P − UA·(T − Ta): parameters κ/C in K/J, UA/C in 1/s and the first temperature in K.
 * Without power (`coolDownProblem`) the first is missing.
 */
export function oneNodeProblem({ timeline, share, blockS }: Prepared): Problem {
  const points = share.length;
  const line = timeline!;
  const pass = quickestPass(line, share, blockS);
  return {
    points,
    parameters: 3,
    names: ['heatingRate', 'lossRate', 'startTemperature'],
    evaluate: (parameters, predicted, jacobian) => {
      predicted.fill(0);
      jacobian?.fill(0);
      const column = (j: number) => jacobian?.subarray(j * points, (j + 1) * points) ?? null;
      pass(parameters[0]!, parameters[1]!, parameters[2]! - line.referenceK, {
        predicted,
        byHeating: column(0),
        byLoss: column(1),
        byStart: column(2),
      });
      for (let k = 0; k < points; k += 1) predicted[k]! += line.referenceK;
    },
  };
}

/** Block means of dT/dt = −(T − Ta)/τ: parameters the first temperature in K and τ in s. */
export function coolDownProblem({ timeline, share, blockS }: Prepared): Problem {
  const points = share.length;
  const line = { ...timeline!, powerFromW: null, powerToW: null };
  const pass = quickestPass(line, share, blockS);
  return {
    points,
    parameters: 2,
    names: ['startTemperature', 'timeConstant'],
    evaluate: (parameters, predicted, jacobian) => {
      predicted.fill(0);
      jacobian?.fill(0);
      const rate = 1 / parameters[1]!;
      const byTau = jacobian?.subarray(points) ?? null;
      pass(0, rate, parameters[0]! - line.referenceK, {
        predicted,
        byHeating: null,
        byLoss: byTau,
        byStart: jacobian?.subarray(0, points) ?? null,
      });
      for (let k = 0; k < points; k += 1) {
        predicted[k]! += line.referenceK;
        if (byTau !== null) byTau[k]! *= -rate * rate;
      }
    },
  };
}
