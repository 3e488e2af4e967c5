import { extrapolate } from './extrapolate.js';
import type { Evaluate } from './Task.js';

/** First step, relative to the parameter; where that is zero, of a unit. */
const firstStep = 0.01;
/** Relative error of a derivative that needs no better step. */
const goodEnough = 1e-10;
/** The first two quotients should differ by about this, relatively: more is too coarse, less drowns in rounding. */
const wanted = 3e-3;
const tries = 8;

/** Evaluation of a model without derivatives: extrapolated differences, whose steps stay inside the bounds. */
export function differences(
  plain: Evaluate,
  rows: number,
  lower: Float64Array,
  upper: Float64Array,
): Evaluate {
  const steps = new Float64Array(lower.length);
  const all = Array.from(lower.keys());
  return (p, predicted, jacobian, columns = all) => {
    plain(p, predicted, null);
    if (jacobian === null || !predicted.every(Number.isFinite)) {
      jacobian?.fill(Number.NaN);
      return;
    }
    for (const j of columns) {
      const at = (value: number): Float64Array => {
        const moved = p.slice();
        moved[j] = value;
        const result = new Float64Array(rows);
        plain(moved, result, null);
        return result;
      };
      const ownScale = p[j] === 0 ? 1 : Math.abs(p[j]!);
      const found = column(at, predicted, p[j]!, lower[j]!, upper[j]!, steps[j] || firstStep * ownScale);
      steps[j] = found.step;
      jacobian.set(found.derivative, j * rows);
    }
  };
}

/** Derivative at x, with the step that served. */
function column(
  at: (x: number) => Float64Array,
  here: Float64Array,
  x: number,
  lower: number,
  upper: number,
  firstStep: number,
): { derivative: Float64Array; step: number } {
  let step = firstStep;
  let best: { derivative: Float64Array; error: number; step: number } = {
    derivative: new Float64Array(here.length).fill(Number.NaN),
    error: Number.POSITIVE_INFINITY,
    step,
  };
  for (let turn = 0; turn < tries; turn += 1) {
    const found = extrapolate(at, here, x, lower, upper, step);
    if (found.error < best.error) best = { derivative: found.derivative, error: found.error, step };
    if (found.error <= goodEnough) break;
    step *= Number.isFinite(found.roughness)
      ? Math.min(100, Math.max(0.01, Math.sqrt(wanted / Math.max(found.roughness, 1e-12))))
      : 0.05;
    if (found.roughness > wanted / 4 && found.roughness < wanted * 4) break;
  }
  return best;
}
