import { problem } from '../../errors/index.js';
import { fitCoolDown, fitQuantities, type ThermalData, type ThermalFit } from '../../fitting/index.js';
import { readingOf } from '../../protocols/index.js';
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
import { saturationPressurePa } from '../../water/index.js';
import type { Workbook } from '../../workbook/index.js';
import type { KnownBody } from '../losses/types.js';
import { lidOf } from '../masses.js';
import { type RunContext, withAllowances } from '../RunContext.js';
import { courseOf, type LoadCourse } from './courseOf.js';
import { type Interval, intervalOf } from './intervalOf.js';
import { type Load, loadOf } from './loadOf.js';
import { methodContext } from './methodContext.js';
import { type Room, roomOf } from './roomOf.js';
import { thermometerOf } from './thermometerOf.js';
import type { MethodRun, StoredRun } from './types.js';

/** Relative humidity of the room where nobody measured it; common practice, no source. */
const HUMIDITY = { value: 0.5, halfWidth: 0.2 } as const;
const LEAST_STEAM_KG = 1e-6;

/**
 * A cool-down: UA without the vapour's heat, and τ = C/UA, from the fit of T = Ta + (T₀ − Ta)·exp(−t/τ); with the vapour
 * term of the open vessel wherever steam was weighed, lid or no lid. C is water, vessel and what of the heater body follows.
 */
export function coolDownRun(
  book: SourceBook,
  workbook: Workbook,
  stored: StoredRun,
  body: KnownBody | null,
): MethodRun {
  const context = methodContext(book, workbook, stored);
  const interval = intervalOf(context, 'begin', 'end');
  const room = roomOf(context, interval.fromMs);
  const course = courseOf(context, stored.temperatureLog, interval.fromMs, interval.toMs);
  const [hotK, coolK] = [Math.max(...course.temperaturesK), Math.min(...course.temperaturesK)];
  const thermometer = thermometerOf(
    context,
    { atK: coolK, level: 'cool', role: 'endTemperature' },
    { atK: hotK, level: 'hot', role: 'startTemperature' },
  );
  const temperature = {
    timesS: course.timesS,
    temperaturesK: course.temperaturesK.map(thermometer.corrected),
  };
  const load = loadOf(context, hotK, coolK, room.mean.value, body);
  const steam = steamOf(context, load, { ...course, ...temperature }, room, interval);
  const { fit, humidity } = fitted({ temperature, ambient: room.ambient }, load, steam);
  const results = fitQuantities(fit, book, {
    id: `run:${context.run.id}:fit`,
    errors: {
      thermometerOffset: thermometer.offset,
      thermometerGain: thermometer.gain,
      ambientOffset: room.error,
      ...(steam === null ? {} : { vapourRate: rateError(steam, load) }),
    },
    heatCapacityJPerK: load.total,
  });
  const damp = humiditySource(context);
  const withHumidity = (quantity: Quantity, slope: number) =>
    slope === 0 ? quantity : add(quantity, scale(damp, slope));
  const ua = withHumidity(results.ua as Quantity, humidity.ua);
  if (!fit.verdict.fits) context.warnings.push(fit.verdict.sentence);
  return {
    run: context.run,
    protocol: context.protocol,
    quantities: { ua, timeConstant: withHumidity(results.timeConstant, humidity.tau) },
    facts: {
      lid: lidOf(context),
      startK: temperature.temperaturesK[0] ?? null,
      endK: temperature.temperaturesK.at(-1) ?? null,
      ambientK: room.mean.value,
      durationS: interval.durationS,
      waterKg: load.masses.before.value,
      heatCapacityJPerK: load.total.value,
      bodyFrom: load.bodyFrom,
      steamKg: load.masses.weighedAfter ? load.masses.steam.value : null,
      holdsVapour: steam === null ? 'yes' : 'no',
      course: course.from,
    },
    fit,
    efficiency: null,
    warnings: context.warnings,
  };
}

/** Steam between the first and the last temperature; null where it was not weighed and the lid was on. */
function steamOf(
  context: RunContext,
  load: Load,
  course: LoadCourse,
  room: Room,
  interval: Interval,
): Quantity | null {
  if (!load.masses.weighedAfter) {
    if (lidOf(context) === 'off')
      throw problem('vapour-not-weighed', { run: context.run.id }, { file: context.run.id });
    return null;
  }
  const weighed = withAllowances(context, 'vapour', load.masses.steam);
  // Next to nothing left, within the doubt of the scale: that doubt stays.
  if (weighed.value <= LEAST_STEAM_KG) return add(constant(LEAST_STEAM_KG - weighed.value), weighed);
  const outside = outsideShare(context, course, room, interval);
  const error = context.book.get({
    id: `run:${context.run.id}:steam-outside`,
    name: 'steam that left while it was carried and weighed',
    halfWidth: outside,
    scope: 'run',
    assumed: true,
  });
  return multiply(weighed, add(constant(1 - outside), errorOf(error)));
}

/** Share of the steam that left between the weighings but outside the course, in proportion to p_sat(T) − φ·p_sat(Ta). */
function outsideShare(
  context: RunContext,
  { timesS, temperaturesK }: LoadCourse,
  room: Room,
  interval: Interval,
): number {
  const roomPa = HUMIDITY.value * saturationPressurePa(room.mean.value);
  const driving = temperaturesK.map((t) => Math.max(0, saturationPressurePa(t) - roomPa));
  let within = 0;
  for (let i = 1; i < driving.length; i++)
    within +=
      (((timesS[i] as number) - (timesS[i - 1] as number)) *
        ((driving[i] as number) + (driving[i - 1] as number))) /
      2;
  const secondsTo = (role: 'fullMass' | 'finalMass') => {
    const at = readingOf(context.protocol, context.run, role)?.at ?? '';
    return (Date.parse(at) - interval.fromMs) / 1000;
  };
  const before = Math.max(0, (timesS[0] as number) - secondsTo('fullMass'));
  const after = Math.max(0, secondsTo('finalMass') - (timesS.at(-1) as number));
  const outside = before * (driving[0] as number) + after * (driving.at(-1) as number);
  return within > 0 ? outside / (within + outside) : 0;
}

/** The fit, and how UA and τ move with the humidity of the room, by fits at both ends of its range. */
function fitted(data: ThermalData, load: Load, steam: Quantity | null) {
  const heatCapacityJPerK = load.total.value;
  if (steam === null) return { fit: fitCoolDown(data, { heatCapacityJPerK }), humidity: { ua: 0, tau: 0 } };
  const at = (relativeHumidity: number) =>
    fitCoolDown(data, { heatCapacityJPerK, vapour: { lostKg: steam.value, relativeHumidity } });
  const [dry, damp] = [at(HUMIDITY.value - HUMIDITY.halfWidth), at(HUMIDITY.value + HUMIDITY.halfWidth)];
  const slope = (of: (fit: ThermalFit) => number) => (of(damp) - of(dry)) / (2 * HUMIDITY.halfWidth);
  const tau = (fit: ThermalFit) =>
    fit.parameters.find(({ name }) => name === 'timeConstant')?.value ?? Number.NaN;
  return {
    fit: at(HUMIDITY.value),
    humidity: { ua: slope((fit) => heatCapacityJPerK / tau(fit)), tau: slope(tau) },
  };
}

/** Relative error of the vapour's heat over the heat capacity: that of the mass less that of C. */
function rateError(steam: Quantity, load: Load): Quantity {
  return subtract(divide(steam, constant(steam.value)), divide(load.total, constant(load.total.value)));
}

function humiditySource(context: RunContext): Quantity {
  return errorOf(
    context.book.get({
      id: `run:${context.run.id}:humidity`,
      name: 'humidity of the room, not measured',
      halfWidth: HUMIDITY.halfWidth,
      scope: 'run',
      assumed: true,
    }),
  );
}
