import type { Log } from '../../logs/index.js';
import { readingOf } from '../../protocols/index.js';
import {
  add,
  constant,
  errorOf,
  multiply,
  propagate,
  type Quantity,
  scale,
  subtract,
} from '../../uncertainty/index.js';
import { type RunContext, roleQuantity } from '../RunContext.js';
import { courseOfRun } from './courseOfRun.js';
import { excessOverTime } from './excessOverTime.js';
import { bodyOfHeater, lossOfHeater } from './lossOfHeater.js';
import type { KnownBody, KnownLoss, RunLoss } from './types.js';

/** Temperature of the room where it stands in the workbook and nobody read it; common practice, no source. */
const SETTINGS_AMBIENT_HALF_WIDTH_K = 3;
/**
 * By how much the heater body is warmer than the load when that no longer rises: it then still gives what the load loses,
 * some 100 W over some 10 W/K. From nothing to twice this, K; common practice, no source.
 */
const BODY_ABOVE_LOAD_K = 5;

/** Heats that are known only with a loss coefficient, J. */
export interface RoomHeats {
  readonly room: Quantity;
  /** Null where the heat capacity of the heater body isn't known. */
  readonly body: { readonly heat: Quantity; readonly heatCapacityJPerK: Quantity } | null;
}

export interface RoomLossInputs {
  readonly loss: KnownLoss | null;
  readonly body: KnownBody | null;
  readonly temperatureLog: Log | null;
  readonly start: Quantity;
  readonly end: Quantity;
  readonly heatingS: number;
}

type FoundLoss = Omit<RunLoss, 'heater'>;

/**
 * Q_r = UA·∫(T − Ta) dt from t0 to t2, UA without vapour: the caller's, else that of the heater's record; null where none is
 * known. Q_b = C_b·(T_b(t2) − T_b(t0)) of a heater body that has come near the load's temperature. Heats are null where the room
 * can't be separated, and `why` says so.
 */
export function roomLoss(
  context: RunContext,
  inputs: RoomLossInputs,
): { readonly found: FoundLoss; readonly heats: RoomHeats | null } | null {
  const loss = inputs.loss ?? lossOfHeater(context);
  if (loss === null) return null;
  const found: FoundLoss = {
    uaWPerK: propagate(loss.uaWPerK),
    from: loss.from,
    fromThisRun: loss.fromRuns?.includes(context.run.id) ?? false,
    quantity: loss.uaWPerK,
    course: null,
    why: null,
  };
  const refused = (why: string) => ({ found: { ...found, why }, heats: null });
  if (loss.holdsVapour === true)
    return refused(
      `The loss coefficient from ${loss.from} holds the heat of vapour, which is booked already: it would count twice.`,
    );
  if (!(loss.uaWPerK.value > 0))
    return refused(`The loss coefficient from ${loss.from} is not above zero, which no vessel has.`);
  const ambient = ambientOf(context);
  if (ambient === null) return refused('Nobody read the temperature of the room.');
  const course = courseOfRun(context, inputs.temperatureLog, inputs.heatingS);
  if ('why' in course) return refused(course.why);
  const { start, end } = inputs;
  const shown = (role: 'startTemperature' | 'endTemperature', quantity: Quantity) =>
    readingOf(context.protocol, context.run, role)?.si ?? quantity.value;
  const excess = excessOverTime(context, course, {
    start,
    end,
    ambient,
    startShownK: shown('startTemperature', start),
    endShownK: shown('endTemperature', end),
  });
  return {
    found: { ...found, course: course.basis },
    heats: {
      room: multiply(loss.uaWPerK, excess),
      body: bodyHeat(context, inputs.body, { start, end, ambient }),
    },
  };
}

/** Mean of what was read of the room, else what the workbook says of it; null where neither is there. */
function ambientOf(context: RunContext): Quantity | null {
  const before = roleQuantity(context, 'ambientTemperature');
  const after = roleQuantity(context, 'ambientTemperatureAfter');
  if (before && after) return scale(add(before, after), 0.5);
  if (before ?? after) return before ?? after;
  const { ambient } = context.workbook.settings;
  if (ambient === undefined) return null;
  const error = context.book.get({
    id: `run:${context.run.id}:ambient-of-workbook`,
    name: 'temperature of the room, from the workbook and not read',
    halfWidth: SETTINGS_AMBIENT_HALF_WIDTH_K,
    scope: 'run',
    assumed: true,
  });
  return add(constant(ambient), errorOf(error));
}

interface BodyEnds {
  readonly start: Quantity;
  readonly end: Quantity;
  readonly ambient: Quantity;
}

function bodyHeat(
  context: RunContext,
  known: KnownBody | null,
  { start, end, ambient }: BodyEnds,
): RoomHeats['body'] {
  const stated = bodyOfHeater(context);
  const warm = context.protocol.start === 'warm';
  // What a warm body brought in was reckoned with the record's value: the same one then takes it out again.
  const heatCapacityJPerK = warm ? stated : (known?.heatCapacityJPerK ?? stated);
  if (heatCapacityJPerK === null) return null;
  const own = (what: string, name: string, halfWidth: number) =>
    errorOf(
      context.book.get({
        id: `run:${context.run.id}:body-at-${what}`,
        name,
        halfWidth,
        scope: 'run',
        assumed: true,
      }),
    );
  const above = own('end', 'heater body warmer than the load at the end', BODY_ABOVE_LOAD_K);
  const last = add(end, constant(BODY_ABOVE_LOAD_K), above);
  // A rested body lies between the room and the load that was put into it; what a warm one brought counts from the room.
  const apart = Math.abs(start.value - ambient.value) / 2;
  const between = own('start', 'heater body between room and load at the start', apart);
  const first = warm ? ambient : add(scale(add(start, ambient), 0.5), between);
  return { heatCapacityJPerK, heat: multiply(heatCapacityJPerK, subtract(last, first)) };
}
