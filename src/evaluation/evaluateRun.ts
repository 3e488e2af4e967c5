import { problem } from '../errors/index.js';
import { dueDate } from '../instruments/index.js';
import type { Log } from '../logs/index.js';
import { markMs, readingOf, readingsWith } from '../protocols/index.js';
import type { Definition, Protocol } from '../protocols/index.js';
import {
  type Quantity,
  type SourceBook,
  add,
  constant,
  divide,
  errorOf,
  multiply,
  propagate,
  subtract,
} from '../uncertainty/index.js';
import type { RunRecord, Workbook } from '../workbook/index.js';
import { conditionWarnings } from './conditionWarnings.js';
import { vapourHeat, vesselHeat, waterHeat } from './heats.js';
import { balanceOf, type Heats, heaterOfBalance } from './losses/balanceOf.js';
import { lossFree } from './losses/lossFree.js';
import { bodyOfHeater } from './losses/lossOfHeater.js';
import { roomLoss } from './losses/roomLoss.js';
import type { KnownBody, KnownLoss } from './losses/types.js';
import { lidOf, massesOf } from './masses.js';
import { pressureOf } from './pressureOf.js';
import { type RunContext, instrumentsOf, neededQuantity, roleQuantity } from './RunContext.js';
import { runEnergy } from './runEnergy.js';
import { temperatureLogWarnings } from './temperatureLogWarnings.js';
import type { RunConditions, RunEvaluation } from './types.js';
import { courseFrom, vapourTemperature } from './vapourTemperature.js';

/** Half-width of the temperature at which the steam left: small with a log, wider where only start and end are known. */
const VAPOUR_HALF_WIDTH_K = { logged: 2, unknown: 8 } as const;

/** Heat capacity of a heater body that nobody stated, as of two kilograms of steel; common practice, no source. */
const UNKNOWN_BODY_J_PER_K = 1000;

export interface RunInputs {
  readonly book: SourceBook;
  readonly workbook: Workbook;
  readonly run: RunRecord;
  readonly protocol: Protocol;
  readonly powerLog: Log | null;
  readonly temperatureLog: Log | null;
  /** Loss to the room, where it was measured; else that of the heater's record, if it states one. */
  readonly loss?: KnownLoss | null;
  /** Heat capacity of the heater body, where two fills gave it. */
  readonly body?: KnownBody | null;
}

/**
 * Evaluates one run: heat balance, and efficiency under each definition, as graphs over the sources of `book`, so
 * that runs evaluated with one book share what they share.
 *
 * Throws when a reading is missing, contradicts another, or when logged and typed energy disagree.
 */
export function evaluateRun(inputs: RunInputs): RunEvaluation {
  const context = contextOf(inputs);
  const pressure = pressureOf(context);
  const ambient = roleQuantity(context, 'ambientTemperature');
  const ambientK = ambient?.value ?? inputs.workbook.settings.ambient ?? null;
  const start = neededQuantity(context, 'startTemperature');
  const end = neededQuantity(context, 'endTemperature');
  if (end.value <= start.value) {
    const celsius = (kelvin: number) => `${(kelvin - 273.15).toFixed(2)} °C`;
    throw problem(
      'rise-not-positive',
      { run: context.run.id, start: celsius(start.value), end: celsius(end.value) },
      { file: context.run.id },
    );
  }
  const masses = massesOf(context, start.value, end.value, pressure.quantity.value, ambientK);
  const energy = runEnergy(context, inputs.powerLog);
  const leaving = leavingTemperature(context, inputs.temperatureLog, start.value, end.value, ambientK);
  const heats = {
    water: waterHeat(context, masses, start, end, pressure.quantity),
    vapour: vapourHeat(context, masses, start, pressure.quantity, leaving),
    vessel: vesselHeat(context, masses, start, end),
  };
  const input = add(energy.quantity, ...bodyHeat(context, ambient));
  const quantities = efficiencies(heats, input);
  const conditions: RunConditions = {
    waterKg: masses.before.value,
    startK: start.value,
    endK: end.value,
    riseK: end.value - start.value,
    ambientK,
    pressurePa: pressure.quantity.value,
    pressureFrom: pressure.from,
    durationS: energy.durationS,
    meanPowerW: energy.meanPowerW,
    meanVoltageV: meanOf(inputs.powerLog?.voltageV ?? null),
    lid: lidOf(context),
    vapourKg: masses.steam.value,
    weighedAfter: masses.weighedAfter,
    start: context.protocol.start,
  };
  const { temperatureLog, powerLog } = inputs;
  const heatingS = energy.durationS;
  const { loss = null, body = null } = inputs;
  const room = roomLoss(context, { loss, body, temperatureLog, start, end, heatingS });
  const balance = balanceOf(heats, input, room?.heats ?? null);
  context.warnings.push(...conditionWarnings(context, conditions, balance, quantities.water as Quantity));
  context.warnings.push(...counterWarnings(energy.readings));
  context.warnings.push(...temperatureLogWarnings(context, inputs.temperatureLog, end));
  context.warnings.push(...dueWarnings(context));
  return {
    run: context.run,
    protocol: context.protocol,
    heater: context.heater,
    instruments: instrumentsOf(context),
    efficiency: {
      water: propagate(quantities.water as Quantity),
      'water+vessel': quantities['water+vessel'] ? propagate(quantities['water+vessel']) : null,
      'water+vapour': quantities['water+vapour'] ? propagate(quantities['water+vapour']) : null,
    },
    quantities,
    balance,
    loss: room && {
      ...room.found,
      heater: room.heats && heaterOfBalance(heats, input, room.heats, subtract(end, start)),
    },
    lossFree: lossFree(context, {
      temperatureLog,
      powerLog,
      heats,
      vapour: masses.steam,
      input,
      efficiencies: quantities,
      ambientK,
      heatingS,
    }),
    energy: energy.readings,
    conditions,
    powerLog: inputs.powerLog,
    temperatureLog: inputs.temperatureLog,
    warnings: context.warnings,
  };
}

function contextOf({ book, workbook, run, protocol }: RunInputs): RunContext {
  const heater = workbook.heaters.get(run.heater);
  if (!heater) {
    const known = [...workbook.heaters.keys()].join(', ') || 'none';
    throw problem('heater-unknown', { got: run.heater, known }, { file: run.id });
  }
  const setting = heater.settings.find((each) => each.id === run.setting);
  if (!setting) {
    const known = heater.settings.map((each) => each.id).join(', ');
    throw problem('setting-unknown', { heater: heater.id, got: run.setting, known }, { file: run.id });
  }
  return { book, workbook, run, protocol, heater, control: setting.control, warnings: [] };
}

/** The three definitions side by side; all over the energy that went in. */
function efficiencies(heats: Heats, input: Quantity): Record<Definition, Quantity | null> {
  return {
    water: divide(heats.water, input),
    'water+vessel': heats.vessel === null ? null : divide(add(heats.water, heats.vessel), input),
    'water+vapour': divide(add(heats.water, heats.vapour), input),
  };
}

/**
 * Heat that a warm body brings to the water, C_b·(T_b − Ta), booked beside the metered energy. For a rest start it is
 * the doubt that the body was not quite at room temperature.
 */
function bodyHeat(context: RunContext, ambient: Quantity | null): Quantity[] {
  const { protocol, run, heater, book } = context;
  if (protocol.start === 'warm') {
    const body = neededQuantity(context, 'bodyTemperature');
    const capacity = bodyOfHeater(context);
    if (!capacity)
      throw problem(
        'body-capacity-missing',
        { heater: heater.id },
        { file: run.id, key: 'bodyHeatCapacity' },
      );
    if (!ambient)
      throw problem('reading-missing', { run: run.id, what: 'ambientTemperature' }, { file: run.id });
    return [multiply(capacity, subtract(body, ambient))];
  }
  const error = book.get({
    id: `run:${run.id}:body-at-rest`,
    name: 'heater body not quite at room temperature',
    halfWidth: protocol.limits.maximumRestDifference,
    scope: 'run',
    assumed: true,
  });
  return [multiply(constant(heater.bodyHeatCapacity?.value ?? UNKNOWN_BODY_J_PER_K), errorOf(error))];
}

function leavingTemperature(
  context: RunContext,
  log: Log | null,
  startK: number,
  endK: number,
  ambientK: number | null,
): { temperatureK: number; halfWidthK: number } {
  const on = markMs(context.protocol, context.run, 'switchOn');
  const last = readingOf(context.protocol, context.run, 'endTemperature');
  const logged = log && on !== null && last ? courseFrom(log, on, Date.parse(last.at)) : null;
  if (logged)
    return { temperatureK: vapourTemperature(logged, ambientK), halfWidthK: VAPOUR_HALF_WIDTH_K.logged };
  const interim = readingsWith(context.protocol, context.run, 'interimTemperature');
  const off = last ? Date.parse(last.at) : 0;
  const from = on ?? off - 1000;
  const points = interim
    .map((each) => ({ at: Date.parse(each.at), k: each.si }))
    .filter((p) => p.at > from && p.at < off);
  const course = {
    timesS: [from, ...points.map((p) => p.at), Math.max(off, from + 1000)].map((ms) => (ms - from) / 1000),
    temperaturesK: [startK, ...points.map((p) => p.k), endK],
  };
  const halfWidthK = points.length >= 3 ? VAPOUR_HALF_WIDTH_K.logged : VAPOUR_HALF_WIDTH_K.unknown;
  return { temperatureK: vapourTemperature(course, ambientK), halfWidthK };
}

function meanOf(values: Float64Array | null): number | null {
  if (values === null) return null;
  const known = values.filter((value) => !Number.isNaN(value) && value > 0);
  return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length;
}

function counterWarnings(energy: RunEvaluation['energy']): string[] {
  if (!energy.counter || !energy.logged) return [];
  const gap = Math.abs(energy.counter.energy.value - energy.logged.energy.value);
  // Coarse steps of the counter are no disagreement.
  const steps = energy.counter.energy.budget.filter((row) => row.source.scope === 'reading');
  const doubt = 3 * Math.hypot(...steps.map((row) => row.contribution));
  if (gap <= Math.max(0.01 * energy.logged.energy.value, doubt)) return [];
  const percent = ((100 * gap) / energy.logged.energy.value).toFixed(1);
  return [`The counter in the export and the integral of its power differ by ${percent} %.`];
}

function dueWarnings(context: RunContext): string[] {
  return Object.values(instrumentsOf(context)).flatMap((instrument) => {
    const due = dueDate(instrument, new Date(context.run.startedAt));
    return due !== null && due.days < 0
      ? [
          `${instrument.name} (${instrument.id}) was ${due.words} when this run was made: its calibration ended on ${due.due}.`,
        ]
      : [];
  });
}
