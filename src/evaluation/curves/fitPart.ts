import {
  type CoolDownOptions,
  fitApproach,
  fitCoolDown,
  fitOneNode,
  fitQuantities,
  fitTwoNode,
  type Stretch,
  type ThermalData,
  type ThermalFit,
  type ThermalFitOptions,
  type ThermalModelName,
  type TwoNodeOptions,
} from '../../fitting/index.js';
import { add, errorOf, propagate, type Quantity, scale } from '../../uncertainty/index.js';
import type { RunContext } from '../RunContext.js';
import { derivedOf } from './derivedOf.js';
import type { PartSetup } from './partSetup.js';
import { HUMIDITY, type PartVapour } from './steamOver.js';
import type { CurveClocks, CurveFit, CurveQuantity } from './types.js';

/** How a part is to be fitted; times in seconds of the temperature log. */
export interface PartOptions {
  readonly leaveOut: readonly Stretch[];
  readonly blockS: number | undefined;
  readonly targetK: number | undefined;
  readonly vapour: PartVapour | null;
  readonly clocks: CurveClocks;
  /** The zero of the run. */
  readonly zeroS: number;
}

/** Something beside the errors of the instruments that moves the parameters. */
interface OwnDoubt {
  readonly error: Quantity;
  readonly slopes: readonly number[];
}

/** Fits a model to a part and carries the errors of log, instruments, clocks and humidity to what follows from it. */
export function fitPart(
  context: RunContext,
  setup: PartSetup,
  model: ThermalModelName,
  options: PartOptions,
): CurveFit {
  const { data, firstS } = setup;
  const thermal: ThermalFitOptions = {
    leaveOut: options.leaveOut.map(({ fromS, toS }) => ({ fromS: fromS - firstS, toS: toS - firstS })),
    ...(options.blockS === undefined ? {} : { blockS: options.blockS }),
    ...(options.targetK === undefined ? {} : { targetK: options.targetK }),
    ...(setup.capacity === null ? {} : { heatCapacityJPerK: setup.capacity.total.value }),
  };
  const bodyRatio = setup.capacity ? bodyRatioOf(setup.capacity) : 0;
  const humidity = options.vapour?.loss.relativeHumidity ?? 0;
  const fitOf = (to: ThermalData, at = humidity, like?: ThermalFit) => {
    const vapour = options.vapour ? { vapour: { ...options.vapour.loss, relativeHumidity: at } } : {};
    return oneFit(model, to, { ...thermal, ...vapour, bodyRatio }, like);
  };
  const fit = fitOf(data);
  const parameters =
    fit.covariance === null || fit.sensitivities === null
      ? null
      : quantitiesOf(context, setup, fit, options, [
          ...clockDoubt(context, data, fit, options.clocks, fitOf),
          ...humidityDoubt(context, data, options.vapour, fitOf),
        ]);
  return {
    model,
    fit,
    startS: firstS - options.zeroS,
    parameters: fit.parameters.map((each, j) => withDoubts(each, parameters?.[j] ?? null, fit)),
    quantities: derivedOf(fit, parameters, setup, options.targetK),
  };
}

/** A fit; of two nodes one with the same parameters as `like`, or what the log speaks for. */
function oneFit(
  model: ThermalModelName,
  data: ThermalData,
  options: CoolDownOptions & TwoNodeOptions,
  like?: ThermalFit,
): ThermalFit {
  const { vapour, bodyRatio = 0, ...plain } = options;
  if (model === 'approach') return fitApproach(data, plain);
  if (model === 'coolDown') return fitCoolDown(data, { ...plain, ...(vapour ? { vapour } : {}) });
  if (model === 'oneNode') return fitOneNode(data, plain);
  const rest = () => fitTwoNode(data, { ...plain, bodyRatio });
  const free = () => fitTwoNode(data, { ...plain, bodyRatio, bodyStart: 'unknown' });
  if (like) return like.parameters.length > TWO_NODES_AT_REST ? free() : rest();
  const first = rest();
  if (first.blocks.count < LEAST_FOR_FREE_START) return first;
  // A body that was warmer or colder than the load at the first reading: only where the log says so.
  const second = free();
  return second.converged && second.covariance !== null && second.aicc < first.aicc ? second : first;
}

const TWO_NODES_AT_REST = 4;
/** Blocks from which five parameters can be told apart at all. */
const LEAST_FOR_FREE_START = 12;

function bodyRatioOf({ load, total }: NonNullable<PartSetup['capacity']>): number {
  const without = load.water.value + (load.vessel?.value ?? 0);
  return Math.max(0, total.value - without) / without;
}

function quantitiesOf(
  context: RunContext,
  setup: PartSetup,
  fit: ThermalFit,
  { vapour }: PartOptions,
  doubts: readonly OwnDoubt[],
): readonly Quantity[] {
  const { thermometer, room, meter, part } = setup;
  const { parameters } = fitQuantities(fit, context.book, {
    id: `run:${context.run.id}:fit:${part.name}:${fit.model}`,
    errors: {
      thermometerOffset: thermometer.offset,
      thermometerGain: thermometer.gain,
      ...(room ? { ambientOffset: room.error } : {}),
      ...(meter ? { meterGain: meter.error } : {}),
      ...(vapour ? { vapourRate: vapour.rateError } : {}),
    },
  });
  return parameters.map((each, j) =>
    add(each, ...doubts.map(({ error, slopes }) => scale(error, slopes[j] as number))),
  );
}

/** Power laid against the temperature a little later: what that does to the parameters. */
function clockDoubt(
  context: RunContext,
  data: ThermalData,
  fit: ThermalFit,
  { standardUncertaintyS: u }: CurveClocks,
  fitOf: (data: ThermalData, humidity: number, like: ThermalFit) => ThermalFit,
): OwnDoubt[] {
  if (!data.power || !(u > 0) || fit.model === 'approach' || fit.model === 'coolDown') return [];
  const later = { ...data.power, timesS: Array.from(data.power.timesS, (t) => t + u) };
  const moved = fitOf({ ...data, power: later }, 0, fit);
  const error = context.book.get({
    id: `run:${context.run.id}:clocks`,
    name: 'clocks of the two logs against each other',
    standardUncertainty: u,
    scope: 'run',
    assumed: true,
  });
  const slopes = moved.parameters.map(
    ({ value }, j) => ((value as number) - (fit.parameters[j]?.value as number)) / u,
  );
  return [{ error: errorOf(error), slopes }];
}

function humidityDoubt(
  context: RunContext,
  data: ThermalData,
  vapour: PartVapour | null,
  fitOf: (data: ThermalData, humidity: number) => ThermalFit,
): OwnDoubt[] {
  if (vapour === null) return [];
  const { value, halfWidth } = HUMIDITY;
  const [dry, damp] = [fitOf(data, value - halfWidth), fitOf(data, value + halfWidth)];
  const error = context.book.get({
    id: `run:${context.run.id}:humidity`,
    name: 'humidity of the room, not measured',
    halfWidth,
    scope: 'run',
    assumed: true,
  });
  const slopes = damp.parameters.map(
    (each, j) => ((each.value as number) - (dry.parameters[j]?.value as number)) / (2 * halfWidth),
  );
  return [{ error: errorOf(error), slopes }];
}

function withDoubts(
  { name, meaning, unit, reason }: ThermalFit['parameters'][number],
  quantity: Quantity | null,
  fit: ThermalFit,
): CurveQuantity {
  const result = quantity === null ? null : propagate(quantity);
  return {
    name,
    meaning,
    unit,
    result,
    reason: result ? null : (reason ?? fit.covarianceReason),
    conditionalOn: null,
  };
}
