import { problem } from '../../errors/index.js';
import {
  add,
  constant,
  divide,
  multiply,
  propagate,
  propagateTogether,
  type Quantity,
  scale,
  subtract,
} from '../../uncertainty/index.js';
import { checkFills } from './checkFills.js';

/** One fill level. */
export interface Fill {
  /** m·c_p of what is in the vessel, J/K. */
  readonly loadHeatCapacityJPerK: Quantity;
  /** κ/(C + C_b) of a fit to it, K/J. */
  readonly heatingRate: Quantity;
  /** UA/(C + C_b) of the same fit, 1/s. */
  readonly lossRate?: Quantity;
}

/** What two or more fills tell of a heater and its vessel. */
export interface HeaterFromFills {
  /** Part of the metered energy that reaches body and load. */
  readonly kappa: Quantity;
  /** C_b, J/K. */
  readonly bodyHeatCapacityJPerK: Quantity;
  /** UA of each fill in W/K: it grows with the wetted wall. null for a fill without a loss rate. */
  readonly ua: readonly (Quantity | null)[];
  /** Of κ and C_b. */
  readonly standardUncertainties: readonly [number, number];
  readonly covariance: readonly (readonly number[])[];
  /** (C + C_b)/κ of each fill less the straight line, relative: only more than two fills can show a curve. */
  readonly relativeResiduals: readonly number[];
}

/**
 * κ and the heater body's heat capacity from two or more fill levels: (m·c_p + C_v + C_b)/κ is a straight line against
 * m·c_p, its slope 1/κ and its intercept (C_v + C_b)/κ. From one fill only their quotient can be known.
 *
 * Weights are 1/u² of each fill; everything is a quantity, so that instruments shared by the fills stay shared.
 *
 * @throws `fills-too-alike` for less than two fills, heat capacities within a fifth of each other, or no rising line
 * @example
 * const exact = (value) => ({ operation: 'constant', value, inputs: [], partials: [] });
 * const fill = (capacity) => ({ loadHeatCapacityJPerK: exact(capacity), heatingRate: exact(0.9 / (capacity + 500 + 800)) });
 * const heater = twoFills([fill(5000), fill(15000)], exact(500));
 * heater.kappa.value // => 0.90000
 * heater.bodyHeatCapacityJPerK.value // => 800.00
 */
export function twoFills(fills: readonly Fill[], vesselHeatCapacityJPerK: Quantity): HeaterFromFills {
  checkFills(fills.map(({ loadHeatCapacityJPerK }) => loadHeatCapacityJPerK.value));
  const x = fills.map(({ loadHeatCapacityJPerK }) => loadHeatCapacityJPerK);
  const y = fills.map(({ heatingRate }) => divide(constant(1), heatingRate));
  const weights = weightsOf(y);
  const meanOf = (values: readonly Quantity[]) => add(...values.map((value, i) => scale(value, weights[i]!)));
  const xMean = meanOf(x);
  const yMean = meanOf(y);
  const deviations = x.map((value) => subtract(value, xMean));
  const products = deviations.map((d, i) => multiply(d, subtract(y[i]!, yMean)));
  const slope = divide(meanOf(products), meanOf(deviations.map((d) => multiply(d, d))));
  if (!(slope.value > 0))
    throw problem('fills-too-alike', {
      got: 'the larger fill doesn’t need more energy for each kelvin than the smaller',
      needed: 'Energy for each kelvin that rises with the fill',
    });
  const kappa = divide(constant(1), slope);
  const intercept = subtract(yMean, multiply(slope, xMean));
  const body = subtract(multiply(intercept, kappa), vesselHeatCapacityJPerK);
  const { results, covariance } = propagateTogether([kappa, body]);
  return {
    kappa,
    bodyHeatCapacityJPerK: body,
    ua: fills.map(({ lossRate, heatingRate }) =>
      lossRate ? multiply(kappa, divide(lossRate, heatingRate)) : null,
    ),
    standardUncertainties: [results[0]!.standardUncertainty, results[1]!.standardUncertainty],
    covariance,
    relativeResiduals: y.map(
      (value, i) => (value.value - intercept.value - slope.value * x[i]!.value) / value.value,
    ),
  };
}

/** In proportion to 1/u², summing to 1; equal where some have no uncertainty. */
function weightsOf(y: readonly Quantity[]): number[] {
  const u = y.map((value) => propagate(value).standardUncertainty);
  const raw = u.every((each) => each > 0) ? u.map((each) => 1 / each ** 2) : u.map(() => 1);
  const total = raw.reduce((sum, each) => sum + each, 0);
  return raw.map((each) => each / total);
}
