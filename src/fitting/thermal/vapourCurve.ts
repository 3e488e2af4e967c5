import { latentHeat, saturationPressurePa } from '../../water/index.js';
import { chebyshevThrough, type Chebyshev, valueAndSlope } from './chebyshev.js';

/** Saturation pressure times latent heat, and the latent heat, of the load's temperature. */
export interface VapourCurve {
  readonly lowK: number;
  readonly highK: number;
  /** p_sat·h_fg in Pa·J/kg. */
  readonly product: Chebyshev;
  /** h_fg in J/kg. */
  readonly latent: Chebyshev;
}

const degree = 14;
/** The formulation begins at the triple point; above 200 °C no open vessel is meant. */
const lowestK = 273.16;
const highestK = 473.15;
const marginK = 25;

/** Polynomials for the vapour heat between the temperatures of a log, with room to spare; 1e-10 of the formulation. */
export function vapourCurve(temperaturesK: Float64Array): VapourCurve {
  const lowK = Math.max(lowestK, temperaturesK.reduce((a, b) => Math.min(a, b)) - marginK);
  const highK = Math.min(highestK, temperaturesK.reduce((a, b) => Math.max(a, b)) + marginK);
  return {
    lowK,
    highK,
    product: chebyshevThrough((t) => saturationPressurePa(t) * latentHeat(t), lowK, highK, degree),
    latent: chebyshevThrough(latentHeat, lowK, highK, degree),
  };
}

const pair = new Float64Array(2);

/**
 * h_fg(T)·(p_sat(T) − p) and its derivative by T into `out`; NaN outside the temperatures of the curve. `p` is the
 * pressure of the vapour in the room.
 */
export function vapourHeat(
  curve: VapourCurve,
  temperatureK: number,
  roomPa: number,
  out: Float64Array,
): void {
  if (!(temperatureK >= curve.lowK && temperatureK <= curve.highK)) {
    out.fill(Number.NaN);
    return;
  }
  valueAndSlope(curve.product, temperatureK, pair);
  const product = pair[0]!;
  const productSlope = pair[1]!;
  valueAndSlope(curve.latent, temperatureK, pair);
  out[0] = product - roomPa * pair[0]!;
  out[1] = productSlope - roomPa * pair[1]!;
}
