import { type StandingLoss, standingLoss } from '../../fitting/index.js';
import { meterEnergy } from '../../instruments/index.js';
import type { Log } from '../../logs/index.js';
import {
  add,
  constant,
  divide,
  errorOf,
  multiply,
  type Quantity,
  type SourceBook,
  scale,
  subtract,
} from '../../uncertainty/index.js';
import type { Workbook } from '../../workbook/index.js';
import type { KnownBody } from '../losses/types.js';
import { lidOf } from '../masses.js';
import { neededQuantity, type RunContext, withAllowances } from '../RunContext.js';
import { courseOf, logStartMs } from './courseOf.js';
import { meterOf, refuseOtherEnergy, typedHeldEnergy } from './heldEnergy.js';
import { type Interval, intervalOf } from './intervalOf.js';
import { loadOf } from './loadOf.js';
import { methodContext } from './methodContext.js';
import { type Room, roomOf } from './roomOf.js';
import { thermometerOf } from './thermometerOf.js';
import type { MethodRun, StoredRun } from './types.js';

/** Energy at the meter for each joule in the load, where κ isn't known; common practice, no source. */
const METER_PER_LOAD = { value: 1.25, halfWidth: 0.25 } as const;
/** How far a log that nobody stirred may miss the change of the water's mean; common practice, no source. */
const UNEVEN_K = 0.1;
const BESIDE_MS = 10 * 60_000;

/** What was held: mean power, temperatures over the same time, and how far the load drifted. */
interface Held {
  readonly powerW: Quantity;
  readonly loadK: Quantity;
  readonly driftK: Quantity;
  readonly durationS: number;
  readonly how: string;
  readonly cycles: number | null;
}

/**
 * A hold: power at the meter for each kelvin above the room, (E − C·ΔT/κ)/(t·(T − Ta)). The drift ΔT of the load meanwhile
 * is booked as heat, with the doubt of κ where that isn't known. From the log over whole cycles, else from the counter.
 */
export function holdRun(
  book: SourceBook,
  workbook: Workbook,
  stored: StoredRun,
  known: { readonly body: KnownBody | null; readonly kappa: Quantity | null },
): MethodRun {
  const context = methodContext(book, workbook, stored);
  const interval = intervalOf(context, 'begin', 'end');
  const room = roomOf(context, interval.fromMs);
  const start = neededQuantity(context, 'startTemperature');
  const end = neededQuantity(context, 'endTemperature');
  const load = loadOf(context, start.value, end.value, room.mean.value, known.body);
  const typed = typedHeldEnergy(context, interval);
  if (stored.powerLog?.powerW) refuseOtherEnergy(context, stored.powerLog, interval, typed);
  const held =
    (stored.powerLog?.powerW && loggedHold(context, stored, stored.powerLog, interval, room)) ||
    typedHold(context, interval, typed, start, end);
  const excess = subtract(held.loadK, room.mean);
  const booked = multiply(multiply(load.total, perLoad(context, known.kappa)), held.driftK);
  const power = withAllowances(context, 'energy', held.powerW, context.run.instruments.wattmeter);
  const net = subtract(power, scale(booked, 1 / held.durationS));
  const perKelvin = divide(net, excess);
  const statedK = context.protocol.limits.statedDifference as number;
  return {
    run: context.run,
    protocol: context.protocol,
    quantities: {
      heldPower: net,
      lossPerKelvin: perKelvin,
      energyPerHour: scale(net, 3600),
      energyPerDay: scale(perKelvin, statedK * 86_400),
    },
    facts: {
      lid: lidOf(context),
      heldK: held.loadK.value,
      ambientK: room.mean.value,
      excessK: excess.value,
      statedDifferenceK: statedK,
      durationS: held.durationS,
      driftK: held.driftK.value,
      driftW: booked.value / held.durationS,
      waterKg: load.masses.before.value,
      heatCapacityJPerK: load.total.value,
      bodyFrom: load.bodyFrom,
      how: held.how,
      cycles: held.cycles,
    },
    fit: null,
    efficiency: null,
    warnings: context.warnings,
  };
}

function perLoad(context: RunContext, kappa: Quantity | null): Quantity {
  if (kappa) return divide(constant(1), kappa);
  const error = context.book.get({
    id: `heater:${context.heater.id}:meter-per-load`,
    name: 'energy at the meter for each joule of drift',
    halfWidth: METER_PER_LOAD.halfWidth,
    scope: 'heater',
    assumed: true,
  });
  return add(constant(METER_PER_LOAD.value), errorOf(error));
}

function typedHold(
  context: RunContext,
  interval: Interval,
  energy: Quantity,
  start: Quantity,
  end: Quantity,
): Held {
  // Start and end are read just beside the marks.
  const { timesS, temperaturesK } = courseOf(
    context,
    null,
    interval.fromMs - BESIDE_MS,
    interval.toMs + BESIDE_MS,
    0,
  );
  const both = scale(add(start, end), 0.5);
  // The mean over time of all that was read, with the errors of the two readings that are always there.
  const meanK = timesS.length >= 2 ? meanOver(timesS, temperaturesK) + shift(context, both) : both.value;
  return {
    powerW: scale(energy, 1 / interval.durationS),
    loadK: add(constant(meanK - both.value), both),
    driftK: subtract(end, start),
    durationS: interval.durationS,
    how: 'counter, typed at the bench',
    cycles: null,
  };
}

/** Correction of the thermometer at what was held. */
function shift(context: RunContext, both: Quantity): number {
  const end = { atK: both.value, level: 'held', role: 'endTemperature' } as const;
  return thermometerOf(context, end, end).corrected(both.value) - both.value;
}

function meanOver(timesS: readonly number[], values: readonly number[]): number {
  let area = 0;
  for (let i = 1; i < timesS.length; i++)
    area +=
      (((timesS[i] as number) - (timesS[i - 1] as number)) *
        ((values[i] as number) + (values[i - 1] as number))) /
      2;
  return area / ((timesS.at(-1) as number) - (timesS[0] as number));
}

/** From the power log, with the logged temperature; null where there is none of that. */
function loggedHold(
  context: RunContext,
  stored: StoredRun,
  log: Log,
  interval: Interval,
  room: Room,
): Held | null {
  const startMs = logStartMs(context, log);
  if (stored.temperatureLog === null || startMs === null || log.powerW === null) return null;
  const course = courseOf(context, stored.temperatureLog, interval.fromMs, interval.toMs);
  const heldK = meanOver(course.timesS, course.temperaturesK);
  const at = (role: 'startTemperature' | 'endTemperature') => ({ atK: heldK, level: 'held', role }) as const;
  const thermometer = thermometerOf(context, at('startTemperature'), at('endTemperature'));
  const offsetS = (startMs - interval.fromMs) / 1000;
  const known = Array.from(log.timesS.keys()).filter((i) => !Number.isNaN(log.powerW?.[i]));
  const data = {
    temperature: { timesS: course.timesS, temperaturesK: course.temperaturesK.map(thermometer.corrected) },
    power: {
      timesS: known.map((i) => (log.timesS[i] as number) + offsetS),
      powerW: known.map((i) => log.powerW?.[i] as number),
    },
    ambient: room.ambient,
  };
  // C/κ of nothing: the drift is booked here, with its doubt.
  const loss = standingLoss(data, {
    stretch: { fromS: 0, toS: interval.durationS },
    heatCapacityOverKappaJPerK: 0,
  });
  const ambientK = typeof room.ambient === 'number' ? room.ambient : room.mean.value;
  const durationS = loss.usedS.toS - loss.usedS.fromS;
  return {
    powerW: loggedPower(context, loss, durationS),
    loadK: add(constant(loss.excessK + ambientK), scale(add(thermometer.cool, thermometer.hot), 0.5)),
    driftK: add(constant(driftOf(data.temperature, loss)), unevenError(context)),
    durationS,
    how: loss.cycles > 0 ? `logged power over ${loss.cycles} whole cycles` : 'logged power',
    cycles: loss.cycles,
  };
}

/** Change of the load over the time used: from the means of its first and last quarter. */
function driftOf(
  series: { readonly timesS: number[]; readonly temperaturesK: number[] },
  loss: StandingLoss,
): number {
  const { fromS, toS } = loss.usedS;
  const quarter = (toS - fromS) / 4;
  const mean = (from: number, to: number) => {
    const within = series.temperaturesK.filter(
      (_, i) => (series.timesS[i] as number) >= from && (series.timesS[i] as number) <= to,
    );
    return within.reduce((sum, t) => sum + t, 0) / within.length;
  };
  return ((mean(toS - quarter, toS) - mean(fromS, fromS + quarter)) * 4) / 3;
}

function unevenError(context: RunContext): Quantity {
  return errorOf(
    context.book.get({
      id: `run:${context.run.id}:uneven-drift`,
      name: 'change of the load while it was held',
      halfWidth: UNEVEN_K,
      scope: 'run',
      assumed: true,
    }),
  );
}

function loggedPower(context: RunContext, loss: StandingLoss, durationS: number): Quantity {
  const meter = meterOf(context);
  const scatter = context.book.get({
    id: `run:${context.run.id}:held-scatter`,
    name: 'scatter of the held power',
    // With fewer than three parts nothing shows it: a twentieth of the power, common practice, no source.
    standardUncertainty:
      durationS *
      (loss.standardUncertainty === null ? 0.05 * loss.heldPowerW : loss.standardUncertainty * loss.excessK),
    degreesOfFreedom: loss.degreesOfFreedom ?? Number.POSITIVE_INFINITY,
    scope: 'run',
    assumed: loss.standardUncertainty === null,
    instrument: meter.id,
  });
  const energy = meterEnergy(context.book, meter, {
    indicationJ: loss.heldPowerW * durationS,
    ownErrors: [errorOf(scatter)],
    meanPowerW: loss.heldPowerW,
    durationS,
    level: `${context.run.setting}, held`,
    ...(meter.powerResolution === undefined ? {} : { powerDigitW: meter.powerResolution }),
  });
  return scale(energy, 1 / durationS);
}
