import type { TemperatureSeries } from '../../fitting/index.js';
import { readingOf } from '../../protocols/index.js';
import { add, constant, errorOf, type Quantity, scale, subtract } from '../../uncertainty/index.js';
import { neededQuantity, type RunContext, roleQuantity } from '../RunContext.js';

/** The room of a run. */
export interface Room {
  /** Mean, with the errors of its readings. */
  readonly mean: Quantity;
  /** The same errors by themselves, value zero. */
  readonly error: Quantity;
  /** As read, seconds after `fromMs`; one value where it was read once. */
  readonly ambient: number | TemperatureSeries;
}

/** How far the mean of a room that was read once may lie off; common practice, no source. */
const DRIFT_K = 1;

/** The room's temperature before and, where it was read, after; straight between them. */
export function roomOf(context: RunContext, fromMs: number): Room {
  const before = neededQuantity(context, 'ambientTemperature');
  const after = roleQuantity(context, 'ambientTemperatureAfter');
  if (after === null) {
    const drift = context.book.get({
      id: `run:${context.run.id}:room-drift`,
      name: 'room that was read only once',
      halfWidth: DRIFT_K,
      scope: 'run',
      assumed: true,
    });
    const mean = add(before, errorOf(drift));
    return { mean, error: subtract(mean, constant(mean.value)), ambient: before.value };
  }
  const mean = scale(add(before, after), 0.5);
  const timeS = (role: 'ambientTemperature' | 'ambientTemperatureAfter') =>
    (Date.parse(readingOf(context.protocol, context.run, role)?.at ?? '') - fromMs) / 1000;
  const timesS = [timeS('ambientTemperature'), timeS('ambientTemperatureAfter')];
  const risen = (timesS[1] as number) > (timesS[0] as number);
  return {
    mean,
    error: subtract(mean, constant(mean.value)),
    ambient: risen ? { timesS, temperaturesK: [before.value, after.value] } : mean.value,
  };
}
