import { add, constant, errorOf, type Quantity } from '../../uncertainty/index.js';
import type { RunContext } from '../RunContext.js';
import type { KnownLoss } from './types.js';

/** The loss coefficient that the heater's record states; null where it states none. */
export function lossOfHeater({ heater, book }: RunContext): KnownLoss | null {
  const stated = heater.lossCoefficient;
  if (!stated) return null;
  const error = book.get({
    id: `heater:${heater.id}:loss-coefficient`,
    name: 'loss coefficient of the vessel in the heater',
    halfWidth: stated.halfWidth,
    scope: 'heater',
    assumed: true,
  });
  return {
    uaWPerK: add(constant(stated.value), errorOf(error)),
    from: `the record of the heater ${heater.id}`,
  };
}

/** The heat capacity of the heater body that its record states, J/K; null where it states none. */
export function bodyOfHeater({ heater, book }: RunContext): Quantity | null {
  const stated = heater.bodyHeatCapacity;
  if (!stated) return null;
  const error = book.get({
    id: `heater:${heater.id}:body-heat-capacity`,
    name: 'heat capacity of the heater body',
    halfWidth: stated.halfWidth,
    scope: 'heater',
    assumed: true,
  });
  return add(constant(stated.value), errorOf(error));
}
