import {
  add,
  constant,
  divide,
  errorOf,
  multiply,
  type Quantity,
  scale,
  subtract,
} from '../../uncertainty/index.js';
import { latentHeat } from '../../water/index.js';
import { neededQuantity, type RunContext, withAllowances } from '../RunContext.js';
import { runEnergy } from '../runEnergy.js';
import type { RunEvaluation } from '../types.js';
import type { Load } from './loadOf.js';

/** Loss at the meter for each kelvin and second where nobody measured it, W/K; common practice, no source. */
const UNKNOWN_LOSS = { value: 2, halfWidth: 2 } as const;

/**
 * κ/(C + C_b) of a heating without a log: (T2 − T1)/(E − loss − steam), with the loss to the room taken from the mean of start
 * and end, and its doubt where nobody measured it. K/J.
 */
export function fillWithoutLog(context: RunContext, evaluation: RunEvaluation, load: Load) {
  const rise = subtract(
    neededQuantity(context, 'endTemperature'),
    neededQuantity(context, 'startTemperature'),
  );
  const energy = runEnergy(context, evaluation.powerLog).quantity;
  const { startK, endK, ambientK, durationS } = evaluation.conditions;
  const excessK = ambientK === null ? (endK - startK) / 2 : (startK + endK) / 2 - ambientK;
  const lost = scale(lossPerKelvin(context), excessK * durationS);
  const steam = scale(load.masses.steam, latentHeat(endK));
  const net = subtract(energy, add(lost, steam));
  const rates: { heatingRate: Quantity; lossRate: Quantity | null } = {
    heatingRate: divide(rise, net),
    lossRate: null,
  };
  return { rates, how: 'energy and rise, without a log' };
}

function lossPerKelvin(context: RunContext): Quantity {
  const { heater, book } = context;
  const source = (id: string, name: string, halfWidth: number) =>
    errorOf(book.get({ id: `heater:${heater.id}:${id}`, name, halfWidth, scope: 'heater', assumed: true }));
  const known = heater.lossCoefficient;
  if (!known)
    return add(
      constant(UNKNOWN_LOSS.value),
      source('loss-unknown', 'loss to the room, not measured', UNKNOWN_LOSS.halfWidth),
    );
  const stated = add(constant(known.value), source('loss', 'loss to the room as stated', known.halfWidth));
  return withAllowances(context, 'loss', multiply(stated, constant(1)));
}
