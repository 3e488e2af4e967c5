import type { Problem } from '../Problem.js';
import type { AutocorrelatedFit } from './fitAutocorrelated.js';
import { inverseNormal } from './normalEquations.js';
import type { Prepared } from './Prepared.js';
import type { ThermalModel } from './ThermalModel.js';
import type { FitSensitivities } from './types.js';
import { whiten } from './whiten.js';

const zeroCelsiusK = 273.15;
/** Of the room in K, of the vapour relative: small against both, large against rounding. */
const shiftK = 0.1;
const shiftPart = 1e-3;

/**
 * dθ = (JᵀWJ)⁻¹·Jᵀ·W·dy for disturbances of the readings, and the same with dy less the change of the model for those
 * of what drives it; `columns` is the whitened Jacobian. null where the parameters cannot be told apart.
 *
 * Where the model is linear, a warmer room with a warmer start makes the whole curve warmer, and a power that is larger by a
 * part is a rate that is smaller by it: no change of the model needs to be computed.
 */
export function sensitivitiesOf(
  model: ThermalModel,
  data: Prepared,
  fit: AutocorrelatedFit,
  columns: readonly Float64Array[],
): FitSensitivities | null {
  const inverse = inverseNormal(columns);
  if (inverse === null) return null;
  const at = Float64Array.from(fit.result.parameters);
  const points = data.share.length;
  const response = (disturbance: Float64Array): number[] => {
    whiten(disturbance, data.gaps, fit.autocorrelation);
    const moments = columns.map((column) =>
      column.reduce((sum, value, k) => sum + value * disturbance[k]!, 0),
    );
    return inverse.map((row) => row.reduce((sum, value, j) => sum + value * moments[j]!, 0));
  };
  const change = (up: Problem, down: Problem, width: number): number[] => {
    const [high, low] = [up, down].map((problem) => {
      const predicted = new Float64Array(points);
      problem.evaluate(at, predicted, null);
      return predicted;
    }) as [Float64Array, Float64Array];
    return response(high.map((value, k) => -(value - low[k]!) / width));
  };
  const { linear, withVapour } = model;
  const thermometerOffset = response(new Float64Array(points).fill(1));
  return {
    thermometerOffset,
    thermometerGain: response(data.observedK.map((value) => value - zeroCelsiusK)),
    ambientOffset: linear
      ? thermometerOffset.map((value, j) => (j === linear.start ? 1 : 0) - value)
      : model.needs.ambient
        ? change(inRoom(model, data, shiftK), inRoom(model, data, -shiftK), 2 * shiftK)
        : null,
    meterGain:
      linear && linear.heating !== null
        ? Array.from(at, (value, j) => (j === linear.heating ? -value : 0))
        : null,
    vapourRate: withVapour
      ? change(
          withVapour(1 + shiftPart).problem(data),
          withVapour(1 - shiftPart).problem(data),
          2 * shiftPart,
        )
      : null,
  };
}

/** The model in a room that is warmer. */
function inRoom(model: ThermalModel, data: Prepared, byK: number): Problem {
  const line = data.timeline!;
  return model.problem({ ...data, timeline: { ...line, referenceK: line.referenceK + byK } });
}
