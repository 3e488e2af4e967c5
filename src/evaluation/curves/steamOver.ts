import { problem } from '../../errors/index.js';
import type { VapourLoss } from '../../fitting/index.js';
import { readingOf } from '../../protocols/index.js';
import { add, constant, errorOf, multiply, type Quantity, subtract } from '../../uncertainty/index.js';
import { saturationPressurePa } from '../../water/index.js';
import { lidOf } from '../masses.js';
import { relativeError } from '../methods/relativeError.js';
import { type RunContext, withAllowances } from '../RunContext.js';
import type { PartSetup } from './partSetup.js';

/** Relative humidity of the room where nobody measured it, as for all cool-downs; common practice, no source. */
export const HUMIDITY = { value: 0.5, halfWidth: 0.2 } as const;

/** The vapour of a part that cools. */
export interface PartVapour {
  readonly loss: VapourLoss;
  /** Of the vapour's heat over the heat capacity, relative; value zero. */
  readonly rateError: Quantity;
}

/**
 * Steam over a part of a cool-down test, from its two weighings, in proportion to p_sat(T) − φ·p_sat(Ta) within and outside
 * of the part. null where no steam was weighed, or the weighings enclose a heating too.
 */
export function steamOver(
  context: RunContext,
  setup: PartSetup,
  logStartMs: number | null,
): PartVapour | null {
  const { capacity, room } = setup;
  if (context.protocol.evaluates !== 'cool-down' || capacity === null || room === null) return null;
  if (!capacity.load.masses.weighedAfter) {
    if (lidOf(context) === 'off')
      throw problem('vapour-not-weighed', { run: context.run.id }, { file: context.run.id });
    return null;
  }
  const weighed = withAllowances(context, 'vapour', capacity.load.masses.steam);
  if (!(weighed.value > 0)) return null;
  const outside = outsideShare(context, setup, room.mean.value, logStartMs);
  const error = context.book.get({
    id: `run:${context.run.id}:steam-outside:${Math.round(setup.firstS)}:${Math.round(setup.lastS)}`,
    name: 'steam that left before and after the curve',
    halfWidth: outside,
    scope: 'run',
    assumed: true,
  });
  const steam = multiply(weighed, add(constant(1 - outside), errorOf(error)));
  return {
    loss: { lostKg: steam.value, relativeHumidity: HUMIDITY.value },
    rateError: subtract(relativeError(steam), relativeError(capacity.total)),
  };
}

function outsideShare(
  context: RunContext,
  setup: PartSetup,
  roomK: number,
  logStartMs: number | null,
): number {
  const { timesS, temperaturesK } = setup.data.temperature;
  const roomPa = HUMIDITY.value * saturationPressurePa(roomK);
  const driving = Array.from(temperaturesK, (t) => Math.max(0, saturationPressurePa(t) - roomPa));
  let within = 0;
  for (let i = 1; i < driving.length; i++)
    within += ((timesS[i]! - timesS[i - 1]!) * (driving[i]! + driving[i - 1]!)) / 2;
  const secondsAt = (role: 'fullMass' | 'finalMass') =>
    (Date.parse(readingOf(context.protocol, context.run, role)?.at ?? '') - (logStartMs ?? Number.NaN)) /
    1000;
  // Where the log has no clock nothing is known of the time outside.
  const before = Math.max(0, setup.firstS - secondsAt('fullMass')) || 0;
  const after = Math.max(0, secondsAt('finalMass') - setup.lastS) || 0;
  const outside = before * driving[0]! + after * driving.at(-1)!;
  return within > 0 ? outside / (within + outside) : 0;
}
