import { problem } from '../../errors/index.js';
import {
  add,
  constant,
  correlatedErrors,
  divide,
  errorOf,
  multiply,
  type Quantity,
  type Scope,
  type SourceBook,
  type SourceSpec,
  scale,
} from '../../uncertainty/index.js';
import type { FitSensitivities, ThermalFit } from './types.js';

/** An error as a quantity of value zero, as a source to be had from the book, or null where it is known not to be there. */
export type InstrumentError = Quantity | SourceSpec | null;

/** What is to be made of a fit. Errors are true less shown; gains and rates are relative. */
export interface FitQuantitiesSpec {
  /** Unique in an evaluation, such as `run-3:fit`. */
  readonly id: string;
  /** Every one that moves the parameters of this model must be stated. */
  readonly errors: Partial<Readonly<Record<keyof FitSensitivities, InstrumentError>>>;
  /** Heat capacity of what the fitted rates stand over: load and vessel, for two nodes the heater body too. */
  readonly heatCapacityJPerK?: Quantity;
  /** What the scatter of the log is shared by; `run` where left out. */
  readonly scope?: Scope;
}

/** A fit's results as quantities: they share their sources with everything else in the evaluation. */
export interface FitQuantities {
  /** In the order of the fit's parameters. */
  readonly parameters: readonly Quantity[];
  /** κ/C, K/J; null where the model has no power. */
  readonly heatingRate: Quantity | null;
  /** UA/C, 1/s; null for an approach. */
  readonly lossRate: Quantity | null;
  /** τ, s. */
  readonly timeConstant: Quantity;
  /** κ and UA in W/K; null without a heat capacity. */
  readonly kappa: Quantity | null;
  readonly ua: Quantity | null;
}

const words: Readonly<Record<keyof FitSensitivities, string>> = {
  thermometerOffset: 'offset of the thermometer',
  thermometerGain: 'gain of the thermometer',
  ambientOffset: 'offset of the room thermometer',
  meterGain: 'gain of the wattmeter',
  vapourRate: 'error of the vapour’s heat',
};

/**
 * The results of a fit as quantities. Each parameter is its value, the scatter of the log (a group of jointly t errors
 * with the covariance and degrees of freedom of the fit) and each instrument error times the parameter's sensitivity to it, so
 * that fitted κ and UA join the budget of everything that is measured with the same instruments. Call it once for a fit:
 * the scatter is a source with one id. First order in the errors.
 *
 * @throws `fit-without-covariance`; `fit-error-unstated` for an error that matters and is left out
 * @example
 * const timesS = Array.from({ length: 361 }, (_, i) => 20 * i);
 * const temperaturesK = timesS.map((t) => 293.15 + 50 * Math.exp(-t / 5400) + 0.02 * Math.sin(t));
 * const fit = fitCoolDown({ temperature: { timesS, temperaturesK }, ambient: 293.15 });
 * const exact = (value) => ({ operation: 'constant', value, inputs: [], partials: [] });
 * const errors = { thermometerOffset: null, thermometerGain: null, ambientOffset: null };
 * const results = fitQuantities(fit, {}, { id: 'fit', errors, heatCapacityJPerK: exact(9000) });
 * results.timeConstant.value // => 5400
 * results.ua.value // => 1.667
 * fitQuantities(fit, {}, { id: 'fit', errors: {} }) // throws 'fit-error-unstated'
 */
export function fitQuantities(fit: ThermalFit, book: SourceBook, spec: FitQuantitiesSpec): FitQuantities {
  const { covariance, sensitivities } = fit;
  if (covariance === null || sensitivities === null)
    throw problem('fit-without-covariance', {
      model: fit.model,
      reason: fit.covarianceReason ?? 'its parameters can’t be told apart',
    });
  const errors = statedErrors(fit.model, sensitivities, spec, book);
  const scatter = correlatedErrors({
    id: spec.id,
    names: fit.parameters.map(({ name }) => `${name}, scatter of the log`),
    covariance,
    degreesOfFreedom: fit.degreesOfFreedom,
    scope: spec.scope ?? 'run',
  });
  const parameters = fit.parameters.map(({ value }, j) =>
    add(
      constant(value!),
      scatter[j]!,
      ...errors.filter(({ by }) => by[j] !== 0).map(({ error, by }) => scale(error, by[j]!)),
    ),
  );
  const named = (name: string) => parameters[fit.parameters.findIndex((each) => each.name === name)] ?? null;
  const heatingRate = named('heatingRate');
  const tau = named('timeConstant');
  const lossRate = fit.model === 'approach' ? null : (named('lossRate') ?? divide(constant(1), tau!));
  const C = spec.heatCapacityJPerK;
  return {
    parameters,
    heatingRate,
    lossRate,
    timeConstant: tau ?? divide(constant(1), lossRate!),
    kappa: C && heatingRate ? multiply(heatingRate, C) : null,
    ua: C && lossRate ? multiply(lossRate, C) : null,
  };
}

/** The errors that move this model, with how much. */
function statedErrors(
  model: string,
  sensitivities: FitSensitivities,
  { errors }: FitQuantitiesSpec,
  book: SourceBook,
): { error: Quantity; by: readonly number[] }[] {
  return (Object.keys(words) as (keyof FitSensitivities)[]).flatMap((name) => {
    const by = sensitivities[name];
    if (by === null) return [];
    const error = errors[name];
    if (error === undefined)
      throw problem('fit-error-unstated', { error: words[name], model }, { key: `errors.${name}` });
    if (error === null) return [];
    return [{ error: 'operation' in error ? error : errorOf(book.get(error)), by }];
  });
}
