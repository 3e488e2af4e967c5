import { firstOrderStep } from './firstOrderStep.js';
import type { Timeline } from './Timeline.js';

/** Where a pass adds its block means; derivatives are null where none are asked for. */
export interface FirstOrderSums {
  readonly predicted: Float64Array;
  readonly byHeating: Float64Array | null;
  readonly byLoss: Float64Array | null;
  readonly byStart: Float64Array | null;
}

/**
 * One pass of dT/dt = a·P(t) − b·(T − Ta(t)), T(first reading) = T₀, stepped exactly from node to node, with its
 * derivatives by a, b and T₀ stepped the same way. Adds `share` of each reading to its block; temperatures less the
 * reference of the timeline.
 */
export function firstOrderPass(
  { intervals, widthS, powerFromW, powerToW, ambientFromK, ambientToK, block, firstBlock }: Timeline,
  share: Float64Array,
  a: number,
  b: number,
  startK: number,
  { predicted, byHeating, byLoss, byStart }: FirstOrderSums,
): void {
  const step = new Float64Array(6);
  const derive = byLoss !== null;
  let h = Number.NaN;
  let decay = 0;
  let w0 = 0;
  let w1 = 0;
  let decayB = 0;
  let w0B = 0;
  let w1B = 0;
  let x = startK;
  let byA = 0;
  let byB = 0;
  let by0 = 1;
  if (firstBlock >= 0) {
    predicted[firstBlock]! += share[firstBlock]! * x;
    if (byStart) byStart[firstBlock]! += share[firstBlock]!;
  }
  for (let i = 0; i < intervals; i += 1) {
    const width = widthS[i]!;
    if (width !== h) {
      h = width;
      firstOrderStep(b, h, step);
      decay = step[0]!;
      w0 = step[1]!;
      w1 = step[2]!;
      decayB = step[3]!;
      w0B = step[4]!;
      w1B = step[5]!;
    }
    const p0 = powerFromW === null ? 0 : powerFromW[i]!;
    const p1 = powerToW === null ? 0 : powerToW[i]!;
    const a0 = ambientFromK === null ? 0 : ambientFromK[i]!;
    const a1 = ambientToK === null ? 0 : ambientToK[i]!;
    const f0 = a * p0 + b * a0;
    const f1 = a * p1 + b * a1;
    if (derive) {
      byB = decay * byB + decayB * x + w0B * f0 + w1B * f1 + w0 * a0 + w1 * a1;
      byA = decay * byA + w0 * p0 + w1 * p1;
      by0 *= decay;
    }
    x = decay * x + w0 * f0 + w1 * f1;
    const k = block[i]!;
    if (k < 0) continue;
    const part = share[k]!;
    predicted[k]! += part * x;
    if (byLoss === null) continue;
    byLoss[k]! += part * byB;
    byStart![k]! += part * by0;
    if (byHeating !== null) byHeating[k]! += part * byA;
  }
}
