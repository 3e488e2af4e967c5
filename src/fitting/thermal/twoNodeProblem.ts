import type { Problem } from '../Problem.js';
import type { Prepared } from './Prepared.js';
import { twoNodePass } from './twoNodePass.js';

/**
 * Block means of a load (C, T) that gets its heat from a heater body (C_b, T_b) it is coupled to by G:
 *
 *     C_b·dT_b/dt = κ·P − G·(T_b − T),   C·dT/dt = G·(T_b − T) − UA·(T − Ta)
 *
 * The load's temperature alone tells κ/(C + C_b), UA/(C + C_b) and the coupling rate G·(1/C + 1/C_b); the ratio
 * r = C_b/C shifts the last by about r·UA/C only, so it is held. With q = G·(T_b − T)/C and A, B, c these three:
 *
 *     dq/dt = c·(A·P − q + r·B·(T − Ta)),   dT/dt = q − (1 + r)·B·(T − Ta)
 *
 * The body is at rest with the load at the first reading (q = 0), or, with `freeStart`, q is a parameter too.
 */
export function twoNodeProblem(
  { timeline, share }: Prepared,
  bodyRatio: number,
  freeStart: boolean,
): Problem {
  const points = share.length;
  const line = timeline!;
  const parameters = freeStart ? 5 : 4;
  return {
    points,
    parameters,
    names: ['heatingRate', 'lossRate', 'couplingRate', 'startTemperature', 'startFlow'].slice(0, parameters),
    evaluate: (p, predicted, jacobian) => {
      predicted.fill(0);
      jacobian?.fill(0);
      const at = {
        heatingRate: p[0]!,
        lossRate: p[1]!,
        couplingRate: p[2]!,
        startK: p[3]! - line.referenceK,
        startFlow: freeStart ? p[4]! : 0,
        bodyRatio,
      };
      const columns = jacobian
        ? Array.from({ length: parameters }, (_, j) => jacobian.subarray(j * points, (j + 1) * points))
        : null;
      twoNodePass(line, share, at, predicted, columns);
      for (let k = 0; k < points; k += 1) predicted[k]! += line.referenceK;
    },
  };
}
