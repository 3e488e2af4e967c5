import { norm } from './norm.js';

/** How often the step is halved. */
const levels = 4;

/** A derivative of a whole array of predictions. */
export interface Extrapolated {
  readonly derivative: Float64Array;
  /** Estimated, relative to the derivative; Infinity where the model has no value at a step. */
  readonly error: number;
  /** Relative difference of the first two quotients. */
  readonly roughness: number;
}

/**
 * Difference quotients with a step halved again and again, extrapolated to a step of zero; of all estimates the one
 * that agrees best with those it was made of. Central where the bounds leave room, else one-sided.
 * Source: L. F. Richardson (1911); C. J. F. Ridders, Adv. Eng. Software 4 (1982) 75.
 */
export function extrapolate(
  at: (x: number) => Float64Array,
  here: Float64Array,
  x: number,
  lower: number,
  upper: number,
  step: number,
): Extrapolated {
  const central = Math.min(x - lower, upper - x) >= step;
  const side = upper - x >= x - lower ? 1 : -1;
  const widest = central ? step : Math.min(step, Math.max(upper - x, x - lower));
  const quotient = (h: number) =>
    central
      ? quotientOf(at(x + h), at(x - h), x + h - (x - h))
      : quotientOf(at(x + side * h), here, x + side * h - x);
  let rows: Float64Array[] = [];
  let best = { derivative: here, error: Number.POSITIVE_INFINITY };
  let roughness = Number.POSITIVE_INFINITY;
  for (let level = 0; level < levels + (central ? 0 : 2); level += 1) {
    const row = [quotient(widest / 2 ** level)];
    if (!row[0]!.every(Number.isFinite)) return { derivative: here, error: Infinity, roughness: Infinity };
    for (let k = 1; k <= level; k += 1) {
      row.push(sharper(row[k - 1]!, rows[k - 1]!, (central ? 4 : 2) ** k));
      const error = Math.max(distance(row[k]!, row[k - 1]!), distance(row[k]!, rows[k - 1]!));
      if (error < best.error) best = { derivative: row[k]!, error };
    }
    if (level === 1) roughness = distance(row[0]!, rows[0]!);
    rows = row;
  }
  return { ...best, roughness };
}

/** What two estimates point to whose errors are as 1 to `factor`. */
function sharper(fine: Float64Array, coarse: Float64Array, factor: number): Float64Array {
  return fine.map((value, i) => value + (value - coarse[i]!) / (factor - 1));
}

function quotientOf(a: Float64Array, b: Float64Array, width: number): Float64Array {
  return a.map((value, i) => (value - b[i]!) / width);
}

/** Relative to the first; zero where both are zero. */
function distance(a: Float64Array, b: Float64Array): number {
  const size = norm(a);
  const between = norm(a.map((value, i) => value - b[i]!));
  return between === 0 ? 0 : between / size;
}
