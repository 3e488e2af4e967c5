import { meterEnergy } from '../../instruments/index.js';
import { add, constant, errorOf, type Quantity } from '../../uncertainty/index.js';
import { type RunContext, withAllowances } from '../RunContext.js';
import type { RunEvaluation } from '../types.js';
import { meterOf } from './heldEnergy.js';
import { relativeError } from './relativeError.js';

/** Correction of a meter's power over a heating as a factor, and its relative error of value zero. */
export function fitGain(
  context: RunContext,
  { energy, conditions }: RunEvaluation,
): { factor: number; error: Quantity } {
  const meter = meterOf(context);
  const indicationJ = (energy.logged ?? energy.typed).energy.value;
  const digitW = meter.powerResolution;
  const metered = meterEnergy(context.book, meter, {
    indicationJ,
    ownErrors: [],
    meanPowerW: conditions.meanPowerW,
    durationS: conditions.durationS,
    level: context.run.setting,
    ...(digitW === undefined ? {} : { powerDigitW: digitW }),
  });
  const whole = withAllowances(context, 'energy', metered, meter.id);
  return {
    factor: whole.value / indicationJ,
    error: add(relativeError(whole), switching(context, energy, indicationJ)),
  };
}

/** Moments of switching between two samples, as a share of the energy. */
function switching(context: RunContext, { logged }: RunEvaluation['energy'], energyJ: number): Quantity {
  const row = logged?.energy.budget.find(({ source }) => source.id.endsWith(':log-sampling'));
  if (!row || !(row.contribution > 0)) return constant(0);
  return errorOf(
    context.book.get({
      id: `run:${context.run.id}:fit-switching`,
      name: 'moment of switching between two samples, in the fit',
      standardUncertainty: row.contribution / energyJ,
      scope: 'run',
    }),
  );
}
