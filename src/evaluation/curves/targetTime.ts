import type { ThermalModelName } from '../../fitting/index.js';

/** What the time to a target follows from: the parameters of a model by name, room and power. */
export interface TargetInputs {
  readonly parameters: Readonly<Record<string, number>>;
  readonly ambientK: number;
  readonly powerW: number;
}

/**
 * Seconds from the first temperature of a curve to a target; NaN where the curve never comes by it. Approach and cool-down:
 * τ·ln of the ratio of the distances to the limit. Heating: ln[(f − b·x₁)/(f − b·x₂)]/b with f = κP/C, b = UA/C and x above the
 * room; with two nodes the load comes later by the lag, less what a body that is warm already gives at the start.
 */
export function targetTime(
  model: ThermalModelName,
  { parameters: p, ambientK, powerW }: TargetInputs,
  targetK: number,
): number {
  const startK = p.startTemperature ?? Number.NaN;
  if (model === 'approach' || model === 'coolDown') {
    const limitK = model === 'approach' ? (p.finalTemperature ?? Number.NaN) : ambientK;
    const ratio = (limitK - startK) / (limitK - targetK);
    return ratio >= 1 ? (p.timeConstant ?? Number.NaN) * Math.log(ratio) : Number.NaN;
  }
  const flow = (p.heatingRate ?? Number.NaN) * powerW;
  const loss = p.lossRate ?? Number.NaN;
  const rise = targetK - startK;
  const atEnd = flow - loss * (targetK - ambientK);
  if (!(rise >= 0 && atEnd > 0 && flow - loss * (startK - ambientK) > 0)) return Number.NaN;
  const z = (loss * rise) / atEnd;
  const even = (rise / atEnd) * (z === 0 ? 1 : Math.log1p(z) / z);
  const lag = p.couplingRate === undefined ? 0 : (1 - (p.startFlow ?? 0) / flow) / p.couplingRate;
  return even + lag;
}
