import type { Problem } from '../Problem.js';
import type { Prepared } from './Prepared.js';
import type { Timeline } from './Timeline.js';
import { type VapourCurve, vapourHeat } from './vapourCurve.js';

/** The vapour of an open vessel, per heat capacity of the load. */
export interface OpenVessel {
  readonly curve: VapourCurve;
  /** g/C in kg/(s·Pa) over J/K. */
  readonly rate: number;
  /** Pressure of the vapour in the room at an ambient temperature, Pa. */
  readonly roomPa: (ambientK: number) => number;
}

/** No step is longer: a fourth-order step of 30 s is good to 1e-12 K for a time constant of an hour. */
const longestStepS = 30;
const slope = new Float64Array(2);

/**
 * Block means of C·dT/dt = −UA_dry·(T − Ta) − g·h_fg·(p_sat(T) − φ·p_sat(Ta)): parameters the first temperature in K
 * and C/UA_dry in s. Runge–Kutta steps of fourth order; the derivatives are those of the steps themselves.
 */
export function openCoolDownProblem({ timeline, share }: Prepared, vessel: OpenVessel): Problem {
  const points = share.length;
  const line = timeline!;
  const room = roomPressures(line, vessel);
  return {
    points,
    parameters: 2,
    names: ['startTemperature', 'timeConstant'],
    evaluate: (parameters, predicted, jacobian) => {
      predicted.fill(0);
      jacobian?.fill(0);
      const rate = 1 / parameters[1]!;
      const state = Float64Array.of(parameters[0]!, 1, 0);
      const add = (k: number) => {
        if (k < 0) return;
        predicted[k]! += share[k]! * state[0]!;
        if (jacobian === null) return;
        jacobian[k]! += share[k]! * state[1]!;
        jacobian[points + k]! += share[k]! * state[2]! * -rate * rate;
      };
      add(line.firstBlock);
      for (let i = 0; i < line.intervals; i += 1) {
        interval(line, i, room, vessel, rate, state);
        add(line.block[i]!);
      }
    },
  };
}

/** Vapour pressure of the room at both ends of each interval. */
function roomPressures(line: Timeline, { roomPa }: OpenVessel) {
  const at = (values: Float64Array | null, i: number) =>
    roomPa(line.referenceK + (values === null ? 0 : values[i]!));
  const constant = line.ambientFromK === null ? roomPa(line.referenceK) : null;
  return {
    from: Float64Array.from({ length: line.intervals }, (_, i) => constant ?? at(line.ambientFromK, i)),
    to: Float64Array.from({ length: line.intervals }, (_, i) => constant ?? at(line.ambientToK, i)),
  };
}

/** Steps T, ∂T/∂T₀ and ∂T/∂b over one interval. */
function interval(
  line: Timeline,
  i: number,
  room: { readonly from: Float64Array; readonly to: Float64Array },
  { curve, rate: vapour }: OpenVessel,
  b: number,
  state: Float64Array,
): void {
  const width = line.widthS[i]!;
  const steps = Math.max(1, Math.ceil(width / longestStepS));
  const h = width / steps;
  const a0 = line.referenceK + (line.ambientFromK === null ? 0 : line.ambientFromK[i]!);
  const a1 = line.referenceK + (line.ambientToK === null ? 0 : line.ambientToK[i]!);
  const k = new Float64Array(12);
  for (let step = 0; step < steps; step += 1) {
    for (let stage = 0; stage < 4; stage += 1) {
      const ahead = stage === 0 ? 0 : stage === 3 ? 1 : 0.5;
      const part = (step + ahead) / steps;
      const before = 3 * (stage - 1);
      const reach = ahead * h;
      const t = state[0]! + (stage === 0 ? 0 : reach * k[before]!);
      const by0 = state[1]! + (stage === 0 ? 0 : reach * k[before + 1]!);
      const byB = state[2]! + (stage === 0 ? 0 : reach * k[before + 2]!);
      const ambient = a0 + (a1 - a0) * part;
      vapourHeat(curve, t, room.from[i]! + (room.to[i]! - room.from[i]!) * part, slope);
      const falls = -b - vapour * slope[1]!;
      k[3 * stage] = -b * (t - ambient) - vapour * slope[0]!;
      k[3 * stage + 1] = falls * by0;
      k[3 * stage + 2] = falls * byB - (t - ambient);
    }
    for (let j = 0; j < 3; j += 1) state[j]! += (h / 6) * (k[j]! + 2 * k[3 + j]! + 2 * k[6 + j]! + k[9 + j]!);
  }
}
