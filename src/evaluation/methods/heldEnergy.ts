import { problem } from '../../errors/index.js';
import { counterStep, meterEnergy } from '../../instruments/index.js';
import { integrateEnergy, type Log } from '../../logs/index.js';
import { readingOf } from '../../protocols/index.js';
import { errorOf, propagate, type Quantity, subtract } from '../../uncertainty/index.js';
import { formatQuantity } from '../../units/index.js';
import type { Instrument } from '../../workbook/index.js';
import { instrumentOf, type RunContext } from '../RunContext.js';
import { logStartMs } from './courseOf.js';
import type { Interval } from './intervalOf.js';

/** How late or early the hand may read the counter beside its mark; common practice, no source. */
const MOMENT_S = 10;
/** As for a heating: logged and typed energy may differ by three standard uncertainties of the difference. */
const AGREEMENT_FACTOR = 3;

/** The meter of a run. */
export function meterOf(context: RunContext): Instrument {
  const id = context.run.instruments.wattmeter;
  if (id === undefined)
    throw problem('reading-missing', { run: context.run.id, what: 'wattmeter' }, { file: context.run.id });
  return instrumentOf(context, id);
}

/** The energy of a hold from the counter as typed, J: steps of the counter and the moments of reading it are in it. */
export function typedHeldEnergy(context: RunContext, { durationS }: Interval): Quantity {
  const meter = meterOf(context);
  const after = readingOf(context.protocol, context.run, 'energyAfter');
  const before = readingOf(context.protocol, context.run, 'energyBefore');
  if (after === null)
    throw problem('reading-missing', { run: context.run.id, what: 'energyAfter' }, { file: context.run.id });
  const indicationJ = after.si - (before?.si ?? 0);
  if (!(indicationJ > 0))
    throw problem(
      'energy-not-positive',
      { run: context.run.id, got: formatQuantity(indicationJ, 'energy', 'kWh') },
      { file: context.run.id },
    );
  const meanPowerW = indicationJ / durationS;
  const step = (which: string) =>
    counterStep(context.book, meter, meter.resolution, { run: context.run.id, which });
  return meterEnergy(context.book, meter, {
    indicationJ,
    ownErrors: [
      step('energy-before'),
      step('energy-after'),
      ...['before', 'after'].map((which) => momentError(context, which, meanPowerW * MOMENT_S)),
    ],
    meanPowerW,
    durationS,
    level: `${context.run.setting}, held`,
  });
}

function momentError(context: RunContext, which: string, halfWidth: number): Quantity {
  const id = `run:${context.run.id}:moment-${which}`;
  const name = 'moment at which the counter was read';
  return errorOf(context.book.get({ id, name, halfWidth, scope: 'reading', assumed: true }));
}

/** Refuses a log whose energy between the marks is another than the counter's, as for a heating. */
export function refuseOtherEnergy(context: RunContext, log: Log, interval: Interval, typed: Quantity): void {
  const startMs = logStartMs(context, log);
  if (startMs === null) return;
  const fromS = (interval.fromMs - startMs) / 1000;
  const meter = meterOf(context);
  const { energyJ, quantisationUJ, samplingUJ } = integrateEnergy(log, {
    fromS,
    toS: fromS + interval.durationS,
  });
  const logged = meterEnergy(context.book, meter, {
    indicationJ: energyJ,
    ownErrors: [],
    meanPowerW: energyJ / interval.durationS,
    durationS: interval.durationS,
    level: `${context.run.setting}, held`,
  });
  const difference = propagate(subtract(logged, typed));
  const most = AGREEMENT_FACTOR * Math.hypot(difference.standardUncertainty, quantisationUJ, samplingUJ);
  if (Math.abs(difference.value) <= most) return;
  const kWh = (joules: number) => formatQuantity(joules, 'energy', 'kWh', 4);
  throw problem(
    'energy-disagrees',
    {
      run: context.run.id,
      logged: kWh(logged.value),
      typed: kWh(typed.value),
      difference: kWh(Math.abs(difference.value)),
      most: kWh(most),
    },
    {},
    'Look for another run’s export, a slipped digit, or a counter that was not zeroed.',
  );
}
