import { problem } from '../errors/index.js';
import { type KnownHeater, predictHeating } from '../fitting/index.js';
import {
  add,
  constant,
  divide,
  errorOf,
  multiply,
  propagate,
  type Quantity,
  SourceBook,
  scale,
  subtract,
} from '../uncertainty/index.js';
import { enthalpy, saturationTemperatureK } from '../water/index.js';
import { rangeWarnings } from './losses/rangeWarnings.js';
import type { HeatingPrediction, HeatingRequest, KnownTransfer } from './losses/types.js';
import type { Figure } from './types.js';

const ATMOSPHERE_PA = 101_325;
/**
 * After switch-off the heater body still warms the load, and both lose heat until T2 holds: so long as nothing else is known, s,
 * from nothing to twice this; common practice, no source.
 */
const SETTLING_S = 60;
/** A room that nobody read; common practice, no source. */
const UNKNOWN_ROOM = { valueK: 293.15, halfWidthK: 5 } as const;

type Known = Pick<Figure, 'heater' | 'setting' | 'spread' | 'efficiency' | 'runs' | 'transfer'>;

/**
 * What a heating of another mass, start, end and power will take, by the κ, UA and heater body that the figure carries:
 * time, energy and efficiency (heat in the water over the energy) with the uncertainty of one future heating. Mass,
 * temperatures and power are taken as stated. Steam counts as lost, as much of it as in the tests.
 *
 * From one fill another mass is refused, unless `mostBodyJPerK` or the heater's record says how much the heater body
 * can hold: that is then a source of its own. What lies outside of what was tested comes as warnings.
 *
 * @throws `predict-unknown` where the figure carries no κ or UA; `load-bad`; `water-not-liquid`; `fit-one-fill`;
 * `target-unreachable` where so little power never gets there
 * @example
 * const exact = (value) => ({ operation: 'constant', value, inputs: [], partials: [] });
 * const range = { waterKg: [2, 6], startK: [285, 286], endK: [320, 330], powerW: [850, 900], ambientK: [290, 294] };
 * const known = { kappa: exact(0.9), bodyHeatCapacityJPerK: exact(800), vesselHeatCapacityJPerK: exact(500),
 *   ua: [{ waterKg: 4, uaWPerK: exact(2) }], range, from: 'two fills' };
 * const figure = { heater: { id: 'h' }, setting: 'full', spread: { basis: 'seen', standardDeviation: 0 },
 *   efficiency: { value: 0.8 }, runs: [{}, {}, {}], transfer: { known } };
 * const heating = predictFigure(figure, { massKg: 3, startK: 285.15, endK: 325.15, powerW: 900, ambientK: 293.15 });
 * heating.timeS.value // => 705.976
 * heating.efficiency.value // => 0.78976
 */
export function predictFigure(figure: Known, request: HeatingRequest): HeatingPrediction {
  const known = figure.transfer?.known;
  if (!known || known.ua.length === 0)
    throw problem('predict-unknown', { figure: `${figure.heater.id}/${figure.setting}` });
  checkRequest(request);
  const { massKg, startK, endK, powerW } = request;
  const load = constant((massKg * (enthalpyAt(endK) - enthalpyAt(startK))) / (endK - startK));
  const book = new SourceBook();
  const { ambient, words } = roomOf(figure, request, book);
  const stated = figure.heater.bodyHeatCapacity;
  const most = request.mostBodyJPerK ?? (stated && stated.value + stated.halfWidth);
  const { heater, carried } = heaterFor(known, massKg, most, book);
  const predicted = predictHeating(
    { ...heater, kappa: multiply(heater.kappa, scatterOf(figure, book)) },
    {
      loadHeatCapacityJPerK: load,
      vesselHeatCapacityJPerK: known.vesselHeatCapacityJPerK,
      startK: constant(startK),
      endK: constant(endK),
      ambientK: ambient,
      powerW: constant(powerW),
      ...(most === undefined ? {} : { mostBodyJPerK: most }),
    },
    book,
  );
  const timeS = add(
    predicted.timeS,
    divide(besideHeating(heater, request, ambient, book), scale(heater.kappa, powerW)),
  );
  const energyJ = scale(timeS, powerW);
  const efficiency = divide(scale(load, endK - startK), energyJ);
  return {
    timeS: propagate(timeS),
    energyJ: propagate(energyJ),
    efficiency: propagate(efficiency),
    quantities: { timeS, energyJ, efficiency },
    assumptions: [
      'mass, temperatures and power as stated',
      'the same vessel, lid and steam as in the tests',
      ...words,
      ...carried,
      ...predicted.assumptions,
    ],
    warnings: rangeWarnings(request, ambient.value, known.range),
  };
}

/**
 * Heat that is needed beyond what goes to body, vessel and load while the heater is on, J: what they lose until the end
 * temperature holds, less what a rested body brings that lies between the load and a warmer room.
 */
function besideHeating(
  { ua, bodyHeatCapacityJPerK: body }: KnownHeater,
  { startK, endK }: HeatingRequest,
  ambient: Quantity,
  book: SourceBook,
): Quantity {
  const own = (id: string, name: string, halfWidth: number) =>
    errorOf(book.get({ id: `predict:${id}`, name, halfWidth, assumed: true }));
  const settling = own('settling', 'loss after switch-off, until the end temperature holds', SETTLING_S);
  const lost = multiply(multiply(ua, subtract(constant(endK), ambient)), add(constant(SETTLING_S), settling));
  if (body === null) return lost;
  const half = (ambient.value - startK) / 2;
  const between = own('body-at-start', 'heater body between room and load at the start', Math.abs(half));
  return subtract(lost, multiply(body, add(constant(half), between)));
}

const enthalpyAt = (kelvin: number) => enthalpy(kelvin, ATMOSPHERE_PA);

function checkRequest({ massKg, startK, endK, powerW, ambientK }: HeatingRequest): void {
  const bad = (what: string, got: string) => problem('load-bad', { what, got }, { key: '--predict' });
  const positive = (value: number) => value > 0 && value < Number.POSITIVE_INFINITY;
  if (!positive(massKg)) throw bad('mass', `${massKg} kg`);
  if (!positive(powerW)) throw bad('power', `${powerW} W`);
  if (!positive(endK - startK)) throw bad('rise from start to end', `${(endK - startK).toFixed(2)} K`);
  if (ambientK !== null && !positive(ambientK)) throw bad('temperature of the room', `${ambientK} K`);
  const boilingK = saturationTemperatureK(ATMOSPHERE_PA);
  if (endK <= boilingK) return;
  const celsius = (kelvin: number) => (kelvin - 273.15).toFixed(1);
  throw problem(
    'water-not-liquid',
    { got: celsius(endK), pressure: (ATMOSPHERE_PA / 100).toFixed(0), boiling: celsius(boilingK) },
    { key: '--predict' },
  );
}

/** The room as asked for, else as it was in the tests, else an assumption. */
function roomOf(
  { runs }: Known,
  { ambientK }: HeatingRequest,
  book: SourceBook,
): { readonly ambient: Quantity; readonly words: string[] } {
  if (ambientK !== null) return { ambient: constant(ambientK), words: [] };
  const known = runs.flatMap((run) => run.conditions?.ambientK ?? []);
  if (known.length > 0) {
    const mean = known.reduce((sum, kelvin) => sum + kelvin, 0) / known.length;
    return {
      ambient: constant(mean),
      words: [`a room at ${(mean - 273.15).toFixed(1)} °C, as in the tests`],
    };
  }
  const { valueK, halfWidthK } = UNKNOWN_ROOM;
  const name = 'temperature of the room, which nobody stated';
  const error = errorOf(book.get({ id: 'predict:room', name, halfWidth: halfWidthK, assumed: true }));
  return { ambient: add(constant(valueK), error), words: ['a room at 20 °C, give or take 5 K'] };
}

/** The heater for a load. κ of heat balances at one fill grows by what a heater body between nothing and `most` would have held. */
function heaterFor(
  known: KnownTransfer,
  massKg: number,
  most: number | undefined,
  book: SourceBook,
): { readonly heater: KnownHeater; readonly carried: string[] } {
  const { kappa, bodyHeatCapacityJPerK, fittedHeatCapacityJPerK: fitted, kappaByBody } = known;
  const ua = lossAt(known, massKg);
  const mostKnown = most !== undefined && most >= 0 && most < Number.POSITIVE_INFINITY;
  if (bodyHeatCapacityJPerK !== null || kappaByBody === undefined || !mostKnown) {
    const heater = { kappa, ua, bodyHeatCapacityJPerK };
    return { heater: fitted ? { ...heater, fittedHeatCapacityJPerK: fitted } : heater, carried: [] };
  }
  const name = 'heat that stays in the heater body, which one fill can’t tell';
  const error = book.get({ id: 'predict:missing-body', name, halfWidth: most / 2, assumed: true });
  const body = add(constant(most / 2), errorOf(error));
  return {
    heater: { kappa: add(kappa, multiply(kappaByBody, body)), ua, bodyHeatCapacityJPerK: body },
    carried: [`one fill only; the heater body holds between 0 and ${Math.round(most)} J/K`],
  };
}

/** One future heating scatters as the runs did. */
function scatterOf({ spread, efficiency, runs }: Known, book: SourceBook): Quantity {
  const seen = spread.basis === 'seen';
  const error = book.get({
    id: 'predict:scatter',
    name: `scatter from heating to heating, ${seen ? 'as seen between the runs' : 'assumed'}`,
    standardUncertainty: spread.standardDeviation / efficiency.value,
    ...(seen && runs.length > 1 ? { degreesOfFreedom: runs.length - 1 } : {}),
    assumed: !seen,
  });
  return add(constant(1), errorOf(error));
}

/** UA at a fill: a straight line between the fills it was measured at, that of the nearest beyond them. */
function lossAt({ ua }: KnownTransfer, massKg: number): Quantity {
  const fills = [...ua].sort((a, b) => a.waterKg - b.waterKg);
  const above = fills.findIndex(({ waterKg }) => waterKg >= massKg);
  if (above <= 0) return (above === 0 ? fills[0] : fills.at(-1))!.uaWPerK;
  const [low, high] = [fills[above - 1]!, fills[above]!];
  const share = (massKg - low.waterKg) / (high.waterKg - low.waterKg);
  return add(scale(low.uaWPerK, 1 - share), scale(high.uaWPerK, share));
}
