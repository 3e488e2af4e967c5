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
import { markMs, readingOf } from '../../protocols/index.js';
import type { KnownBody, KnownLoss } from '../losses/types.js';
import { bodyOf } from './bodyOf.js';
import type { RunEvaluation } from '../types.js';
import { courseFrom } from '../vapourTemperature.js';

/** How much hotter or colder than the load the body ends; common practice, no source. */
const BODY_APART = 0.25;
/** Doubt of the mean temperature where only start and end are known, as a share of the rise; common practice, no source. */
const COURSE_SHARE = 0.05;
const DEFAULT_ROOM_K = 293.15;

/** Part of the energy of a heating that reached load and body: water, steam, vessel, body, and what the room took meanwhile. */
export function reachedLoad(
  book: SourceBook,
  run: RunEvaluation,
  loss: KnownLoss,
  body: KnownBody | null,
): Quantity {
  const { quantities, energy, conditions } = run;
  const water = quantities.water as Quantity;
  const beside = (['water+vessel', 'water+vapour'] as const).flatMap((name) => {
    const quantity = quantities[name];
    return quantity ? [subtract(quantity, water)] : [];
  });
  const energyJ = (energy.logged ?? energy.typed).energy.value;
  const kelvinSeconds = scale(meanExcess(book, run), conditions.durationS);
  return add(
    water,
    ...beside,
    scale(multiply(loss.uaWPerK, kelvinSeconds), 1 / energyJ),
    divide(multiply(bodyHeat(book, run, body), constant(conditions.riseK)), constant(energyJ)),
  );
}

/** Mean of load less room from switch-on to the end, by the log or straight from start to end. */
function meanExcess(
  book: SourceBook,
  { run, protocol, conditions, temperatureLog }: RunEvaluation,
): Quantity {
  const { startK, endK, riseK } = conditions;
  const roomK = conditions.ambientK ?? DEFAULT_ROOM_K;
  const fromMs = markMs(protocol, run, 'switchOn');
  const last = readingOf(protocol, run, 'endTemperature');
  const course =
    temperatureLog && fromMs !== null && last
      ? courseFrom(temperatureLog, fromMs, Date.parse(last.at))
      : null;
  const meanK = course
    ? Array.from(course.temperaturesK).reduce((sum, t) => sum + t, 0) / course.temperaturesK.length
    : (startK + endK) / 2;
  const error = book.get({
    id: `run:${run.id}:mean-excess`,
    name: 'mean difference to the room',
    halfWidth: COURSE_SHARE * riseK,
    scope: 'run',
    assumed: true,
  });
  return add(constant(meanK - roomK), errorOf(error));
}

function bodyHeat(book: SourceBook, { heater }: RunEvaluation, known: KnownBody | null): Quantity {
  const apart = book.get({
    id: `heater:${heater.id}:body-apart`,
    name: 'heater body hotter or colder than the load at the end',
    halfWidth: BODY_APART,
    scope: 'heater',
    assumed: true,
  });
  return multiply(add(constant(1), errorOf(apart)), bodyOf(book, heater, known).quantity);
}
