import { formatQuantity } from '../units/index.js';
import type { Quantity } from '../uncertainty/index.js';
import { propagate } from '../uncertainty/index.js';
import type { RunContext } from './RunContext.js';
import type { Booking, RunConditions } from './types.js';

/** More than any plug of a house gives; common practice, no source. */
const PLUG_IN_MOST_W = 8000;

/** What of a run's conditions goes beyond its protocol, or can't be. */
export function conditionWarnings(
  context: RunContext,
  conditions: RunConditions,
  balance: readonly Booking[],
  efficiency: Quantity,
): string[] {
  const { limits } = context.protocol;
  const warnings: string[] = [];
  const kelvin = (rise: number) => formatQuantity(rise, 'temperatureDifference', 'K', 1);
  if (conditions.riseK < limits.minimumRise - 1e-6) {
    warnings.push(
      `The rise was ${kelvin(conditions.riseK)}; the protocol asks for at least ${kelvin(limits.minimumRise)}.`,
    );
  }
  if (conditions.endK > limits.maximumEnd + 1e-6) {
    const celsius = (k: number) => formatQuantity(k, 'temperature', '°C', 1);
    warnings.push(
      `The end was at ${celsius(conditions.endK)}; above ${celsius(limits.maximumEnd)} steam and loss grow quickly.`,
    );
  }
  const kWh = (joules: number) => formatQuantity(joules, 'energy', 'kWh', 4);
  const rest = balance[balance.length - 1] as Booking;
  if (rest.heat.value < -2 * rest.heat.standardUncertainty) {
    warnings.push(
      `More heat is booked than the meter saw: ${kWh(-rest.heat.value)} too much, and no more than ${kWh(2 * rest.heat.standardUncertainty)} can be explained. Look for a wrong reading${rest.name === 'rest' ? ', or a loss to the room that is stated too high' : ''}.`,
    );
  }
  const vapour = balance.find((booking) => booking.name === 'vapour');
  if (vapour && vapour.heat.value < -2 * vapour.heat.standardUncertainty) {
    warnings.push('It weighed more after the heating than before: a lid, a stirrer or a probe on the scale?');
  }
  const found = propagate(efficiency);
  if (found.interval[0] > 1) {
    warnings.push(
      'More than all of the metered energy would have reached the water. Look for a wrong reading.',
    );
  }
  const rated = context.heater.ratedPower;
  const most = rated === undefined ? PLUG_IN_MOST_W : 1.25 * rated;
  if (conditions.meanPowerW > most) {
    const watts = (power: number) => formatQuantity(power, 'power', 'W', 0);
    const than =
      rated === undefined ? 'more than a plug-in heater draws' : `the heater is rated at ${watts(rated)}`;
    warnings.push(
      `The mean power would have been ${watts(conditions.meanPowerW)}, ${than}. Look for a wrong time or energy.`,
    );
  }
  if (context.protocol.start === 'rest' && conditions.startK > 273.15 + 45) {
    warnings.push('The water was hot at the start: a rest start begins with cold water and a cold body.');
  }
  return warnings;
}
