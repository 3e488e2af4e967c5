import { problem } from '../../errors/index.js';
import {
  add,
  constant,
  divide,
  errorOf,
  lift,
  multiply,
  type Quantity,
  type SourceBook,
  subtract,
} from '../../uncertainty/index.js';
import { heatingTime } from './heatingTime.js';

/** A heater as fits know it. */
export interface KnownHeater {
  readonly kappa: Quantity;
  /** Loss to the room, W/K. */
  readonly ua: Quantity;
  /** C_b from two fills; null where κ and UA come from one fill. */
  readonly bodyHeatCapacityJPerK: Quantity | null;
  /** For one fill: the heat capacity of load and vessel for which κ and UA were made from the fitted rates. */
  readonly fittedHeatCapacityJPerK?: Quantity;
}

/** A heating that is planned. */
export interface PlannedHeating {
  /** m·c_p of the load, J/K. */
  readonly loadHeatCapacityJPerK: Quantity;
  readonly vesselHeatCapacityJPerK: Quantity;
  readonly startK: Quantity;
  /** Stirred end temperature, when the heater body has given off its heat. */
  readonly endK: Quantity;
  readonly ambientK: Quantity;
  readonly powerW: Quantity;
  /** For κ from one fill: the most that the heater body can hold, J/K. It is then carried as a source, half of it either way. */
  readonly mostBodyJPerK?: number;
}

/** What a heating will take. */
export interface PredictedHeating {
  /** From switch-on to switch-off. */
  readonly timeS: Quantity;
  readonly energyJ: Quantity;
  /** Heat in the load over energy, and with the vessel's. */
  readonly efficiencyWater: Quantity;
  readonly efficiencyWaterVessel: Quantity;
  /** What was taken for granted, in words. */
  readonly assumptions: readonly string[];
}

/** Heat capacities this near to each other are the same fill. */
const sameFill = 0.01;

/**
 * Time, energy and efficiency of a heating at constant power, of any mass: t = C/UA·ln[(κP − UA(T1 − Ta))/(κP − UA(T2 − Ta))]
 * with C = load + vessel + heater body. All are quantities, with the doubts of κ and UA and their correlation.
 *
 * With κ from one fill, another mass is refused unless the most that the heater body can hold is stated; then κ and UA
 * are raised by C_b/C with C_b anywhere from nothing to that, as a source named "heat that stays in the heater body".
 *
 * @throws `fit-one-fill`, `target-unreachable`, `fit-input-bad`
 * @example
 * const exact = (value) => ({ operation: 'constant', value, inputs: [], partials: [] });
 * const heater = { kappa: exact(0.9), ua: exact(2), bodyHeatCapacityJPerK: exact(800) };
 * const heating = predictHeating(heater, {
 *   loadHeatCapacityJPerK: exact(12540), vesselHeatCapacityJPerK: exact(500),
 *   startK: exact(285.15), endK: exact(335.15), ambientK: exact(293.15), powerW: exact(900),
 * }, {});
 * heating.timeS.value // => 892.99
 * heating.efficiencyWater.value // => 0.78015
 */
export function predictHeating(
  heater: KnownHeater,
  planned: PlannedHeating,
  book: SourceBook,
): PredictedHeating {
  const {
    loadHeatCapacityJPerK: load,
    vesselHeatCapacityJPerK: vessel,
    startK,
    endK,
    ambientK,
    powerW,
  } = planned;
  if (!(endK.value > startK.value))
    throw problem('fit-input-bad', {
      what: 'The end of the heating',
      expected: `above its start at ${startK.value} K`,
      got: `${endK.value} K`,
    });
  const { kappa, ua, body, assumptions } = transferred(heater, add(load, vessel), planned, book);
  const total = add(load, vessel, body);
  const flow = divide(multiply(kappa, powerW), total);
  const rate = divide(ua, total);
  const [x1, x2] = [subtract(startK, ambientK), subtract(endK, ambientK)];
  const time = heatingTime(flow.value, rate.value, x1.value, x2.value);
  if (time === null)
    throw problem('target-unreachable', {
      endK: endK.value,
      finalK: ambientK.value + (kappa.value * powerW.value) / ua.value,
    });
  const timeS = lift(
    'The time of a heating',
    ([f, b, from, to]) => heatingTime(f!, b!, from!, to!)?.timeS ?? Number.NaN,
    time.gradient,
    flow,
    rate,
    x1,
    x2,
  );
  const energyJ = multiply(timeS, powerW);
  const rise = subtract(endK, startK);
  return {
    timeS,
    energyJ,
    efficiencyWater: divide(multiply(load, rise), energyJ),
    efficiencyWaterVessel: divide(multiply(add(load, vessel), rise), energyJ),
    assumptions,
  };
}

/** κ, UA and the body's heat capacity as they are for another load. */
function transferred(
  heater: KnownHeater,
  capacity: Quantity,
  { mostBodyJPerK }: PlannedHeating,
  book: SourceBook,
) {
  const { kappa, ua, bodyHeatCapacityJPerK, fittedHeatCapacityJPerK: fitted } = heater;
  if (bodyHeatCapacityJPerK) return { kappa, ua, body: bodyHeatCapacityJPerK, assumptions: [] };
  if (fitted && Math.abs(capacity.value - fitted.value) <= sameFill * fitted.value)
    return {
      kappa,
      ua,
      body: constant(0),
      assumptions: ['κ is that of this fill, the heater body left out of C'],
    };
  const asJPerK = (value: number) => `${Math.round(value)} J/K`;
  if (fitted === undefined || mostBodyJPerK === undefined)
    throw problem('fit-one-fill', {
      fitted: fitted ? asJPerK(fitted.value) : 'an unknown amount',
      asked: asJPerK(capacity.value),
    });
  if (!(mostBodyJPerK >= 0 && mostBodyJPerK < Number.POSITIVE_INFINITY))
    throw problem('fit-input-bad', {
      what: 'The most that the heater body can hold',
      expected: '0 J/K or more',
      got: `${mostBodyJPerK} J/K`,
    });
  const name = 'heat that stays in the heater body, which one fill can’t tell';
  const error = errorOf(
    book.get({ id: 'fit:missing-body', name, halfWidth: mostBodyJPerK / 2, scope: 'heater', assumed: true }),
  );
  const body = add(constant(mostBodyJPerK / 2), error);
  const raise = add(constant(1), divide(body, fitted));
  return {
    kappa: multiply(kappa, raise),
    ua: multiply(ua, raise),
    body,
    assumptions: [`κ is from one fill; the heater body holds between 0 and ${asJPerK(mostBodyJPerK)}`],
  };
}
