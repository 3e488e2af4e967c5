import { add, constant, divide, propagate, type Quantity, subtract } from '../../uncertainty/index.js';
import type { Booking } from '../types.js';
import type { RoomHeats } from './roomLoss.js';
import type { BalanceHeater } from './types.js';

/** Heat bookings of a run, J. */
export interface Heats {
  readonly water: Quantity;
  readonly vapour: Quantity;
  readonly vessel: Quantity | null;
}

/** The heat balance: what is booked, and what is left of the input. Room is never zero: unknown, it stays with the rest. */
export function balanceOf(heats: Heats, input: Quantity, known: RoomHeats | null): Booking[] {
  const named: [Booking['name'], Quantity][] = [['water', heats.water]];
  named.push(['vapour', heats.vapour]);
  if (heats.vessel !== null) named.push(['vessel', heats.vessel]);
  if (known?.body) named.push(['heater body', known.body.heat]);
  if (known) named.push(['room', known.room]);
  const rest = subtract(input, add(...named.map(([, heat]) => heat)));
  named.push([known ? 'rest' : 'room and rest, not separated', rest]);
  return named.map(([name, heat]) => ({
    name,
    heat: propagate(heat),
    share: propagate(divide(heat, input)),
  }));
}

/** κ and heat capacities by the balance of one run. Vapour counts as lost, so that they foretell a heating that loses as much. */
export function heaterOfBalance(
  heats: Heats,
  input: Quantity,
  known: RoomHeats,
  rise: Quantity,
): BalanceHeater {
  const parts = [heats.water, known.room];
  if (heats.vessel !== null) parts.push(heats.vessel);
  if (known.body) parts.push(known.body.heat);
  const perKelvin = (heat: Quantity) => divide(heat, rise);
  return {
    kappa: divide(add(...parts), input),
    loadHeatCapacityJPerK: perKelvin(heats.water),
    vesselHeatCapacityJPerK: heats.vessel === null ? constant(0) : perKelvin(heats.vessel),
    bodyHeatCapacityJPerK: known.body?.heatCapacityJPerK ?? null,
    kappaByBody: divide(rise, input),
  };
}
