import { problem } from '../../errors/index.js';
import { add, constant, errorOf, multiply, type Quantity, scale } from '../../uncertainty/index.js';
import { formulationUncertainty, heatCapacity } from '../../water/index.js';
import { vesselHeat } from '../heats.js';
import { type Masses, massesOf } from '../masses.js';
import { bodyOf } from './bodyOf.js';
import { pressureOf } from '../pressureOf.js';
import { type RunContext, withAllowances } from '../RunContext.js';
import type { KnownBody } from '../losses/types.js';

/** What cools or warms together; heat capacities in J/K. */
export interface Load {
  readonly masses: Masses;
  /** m·c_p of the water, mean mass between the weighings. */
  readonly water: Quantity;
  /** Null where the vessel's material isn't known. */
  readonly vessel: Quantity | null;
  readonly body: Quantity;
  readonly bodyFrom: string;
  readonly total: Quantity;
}

/** Load, vessel and heater body of a run between two temperatures. */
export function loadOf(
  context: RunContext,
  startK: number,
  endK: number,
  ambientK: number,
  body: KnownBody | null,
): Load {
  const pressurePa = pressureOf(context).quantity.value;
  const masses = massesOf(context, startK, endK, pressurePa, ambientK);
  const meanK = (startK + endK) / 2;
  const formulation = context.book.get({
    id: 'lab:water-formulation',
    name: 'formulation of water properties',
    halfWidth: formulationUncertainty.relativeHalfWidth,
    scope: 'lab',
  });
  const specific = scale(add(constant(1), errorOf(formulation)), heatCapacity(meanK, pressurePa));
  const mass = scale(add(masses.before, masses.after), 0.5);
  const water = multiply(mass, withAllowances(context, 'enthalpyRise', specific));
  const vessel = vesselHeat(context, masses, constant(0), constant(1));
  const found = bodyOf(context.book, context.heater, body);
  return {
    masses,
    water,
    vessel,
    body: found.quantity,
    bodyFrom: found.from,
    total: add(water, ...(vessel ? [vessel] : []), found.quantity),
  };
}

/** Vessel and load can't be told apart where nobody says what the vessel is made of. */
export function neededVessel(context: RunContext, load: Load): Quantity {
  if (load.vessel === null)
    throw problem('vessel-unknown', { heater: context.heater.id }, { file: context.run.id });
  return load.vessel;
}
