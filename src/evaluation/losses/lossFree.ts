import { HeatledgerError } from '../../errors/index.js';
import type { Log } from '../../logs/index.js';
import { type Definition, readingOf } from '../../protocols/index.js';
import {
  add,
  constant,
  divide,
  errorOf,
  multiply,
  propagate,
  type Quantity,
  type SourceSpec,
  scale,
} from '../../uncertainty/index.js';
import type { RunContext } from '../RunContext.js';
import type { Heats } from './balanceOf.js';
import { courseOfRun } from './courseOfRun.js';
import { type LossFreeRise, lossFreeRise } from './lossFreeRise.js';
import { type QuietPeriods, quietPeriods } from './quietPeriods.js';
import type { LossFree } from './types.js';
import { vapourCooling } from './vapourCooling.js';

/** Loss is not quite in proportion to the excess over the room: part of the correction; common practice, no source. */
const LAW_OF_LOSS = 0.15;
/** The vapour in the after-period against that of the heating, by lid and draught; common practice, no source. */
const VAPOUR_ALIKE = 0.3;
/** T∞ may lie this far from the room before the periods are no good, K; common practice, no source. */
const CONVERGENCE_K = 5;
const DEFAULT_AMBIENT_K = 293.15;

export interface LossFreeInputs {
  readonly temperatureLog: Log | null;
  readonly powerLog: Log | null;
  readonly heats: Heats;
  /** Vapour that left, kg. */
  readonly vapour: Quantity;
  readonly input: Quantity;
  readonly efficiencies: Readonly<Record<Definition, Quantity | null>>;
  readonly ambientK: number | null;
  readonly heatingS: number;
}

/**
 * The efficiency free of loss to the room by the loss correction of classical calorimetry, beside the plain one and over the
 * same sources: heat of water (and vessel, where the headline counts it) times corrected over plain rise. Vapour that was
 * booked is taken out of the drifts, so that it isn't given back. Where it can't be had, a sentence says why.
 */
export function lossFree(context: RunContext, inputs: LossFreeInputs): LossFree {
  const none = (why: string): LossFree => ({ efficiency: null, quantity: null, why });
  const { heats, efficiencies } = inputs;
  const plain = efficiencies[context.protocol.headline];
  if (plain === null) return none('The efficiency of the headline was not measured.');
  const log = inputs.temperatureLog ?? (inputs.powerLog?.temperatureK ? inputs.powerLog : null);
  const periods = quietPeriods(context, log, inputs.powerLog);
  if ('why' in periods) return none(periods.why);
  try {
    const rise = riseOf(context, inputs, periods, log as Log);
    if ('why' in rise) return none(rise.why);
    const kept = context.protocol.headline === 'water+vessel' ? efficiencies['water+vessel'] : null;
    const share = kept ?? divide(heats.water, inputs.input);
    const given = multiply(share, add(factorOf(context, inputs, periods, rise, log as Log), constant(-1)));
    const quantity = add(plain, given);
    return { efficiency: propagate(quantity), quantity, why: null };
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    return none(error.message);
  }
}

/** The corrected rise, or why it can't be trusted. */
function riseOf(
  context: RunContext,
  { heats, vapour, ambientK, heatingS }: LossFreeInputs,
  periods: QuietPeriods,
  log: Log,
): LossFreeRise | { readonly why: string } {
  const course = courseOfRun(context, log, heatingS);
  if ('why' in course) return course;
  const cooling = vapourCooling(course, ambientK ?? DEFAULT_AMBIENT_K);
  const capacity =
    (heats.water.value + (heats.vessel?.value ?? 0)) /
    (course.temperaturesK.at(-1)! - course.temperaturesK[0]!);
  const rise = lossFreeRise(periods, vapour.value, (kelvin) => cooling(kelvin) / capacity);
  if ('why' in rise) return rise;
  const [k, u] = rise.coolingRate;
  if (!(k > 2 * u)) return { why: 'The fall after the heating is lost in the scatter of the log.' };
  // Drift before the heating can be no better known than the steps of the thermometer let it.
  const stepK = log.resolution.temperatureK ?? 0;
  const looseK = stepK / (periods.forePeriod.toS - periods.forePeriod.fromS) / k;
  if (ambientK !== null && Math.abs(rise.convergenceK - ambientK) > CONVERGENCE_K + looseK) {
    const celsius = (kelvin: number) => `${(kelvin - 273.15).toFixed(1)} °C`;
    return {
      why: `By its drifts the load would lose nothing at ${celsius(rise.convergenceK)}, but the room was at ${celsius(ambientK)}: the periods before and after the heating were not quiet.`,
    };
  }
  return rise;
}

/** Corrected rise over that between T1 and T2 as they were read, with the doubts that only the correction has. */
function factorOf(
  context: RunContext,
  { vapour }: LossFreeInputs,
  { forePeriod, afterPeriod }: QuietPeriods,
  rise: LossFreeRise,
  log: Log,
): Quantity {
  const own = (what: string, spec: Omit<SourceSpec, 'id'>) =>
    errorOf(context.book.get({ id: `run:${context.run.id}:loss-free:${what}`, scope: 'run', ...spec }));
  const stepK = log.resolution.temperatureK ?? 0;
  const drift = (what: string, { fromS, toS }: typeof forePeriod) =>
    own(`${what}-steps`, {
      name: `steps of the log in the drift ${what} the heating`,
      halfWidth: stepK / (toS - fromS),
      assumed: true,
    });
  const withoutVapourK = rise.correctedRiseK - rise.plainRiseK - rise.byVapourKg * vapour.value;
  const alike = own('vapour', {
    name: 'vapour after the heating not as during it',
    halfWidth: VAPOUR_ALIKE,
    assumed: true,
  });
  const law = own('law', {
    name: 'loss not in proportion to the excess over the room',
    halfWidth: LAW_OF_LOSS,
    assumed: true,
  });
  const scatter = own('scatter', {
    name: 'scatter of the log before and after the heating',
    standardUncertainty: rise.scatterK,
    degreesOfFreedom: rise.degreesOfFreedom,
  });
  const corrected = add(
    constant(rise.plainRiseK),
    multiply(
      add(
        constant(withoutVapourK),
        multiply(scale(vapour, rise.byVapourKg), add(constant(1), alike)),
        scale(drift('before', forePeriod), rise.byForeDrift),
        scale(drift('after', afterPeriod), rise.byAfterDrift),
      ),
      add(constant(1), law),
    ),
    scatter,
  );
  const shown = (role: 'startTemperature' | 'endTemperature') =>
    readingOf(context.protocol, context.run, role)!.si;
  return scale(corrected, 1 / (shown('endTemperature') - shown('startTemperature')));
}
