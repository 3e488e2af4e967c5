import { problem } from '../errors/index.js';
import { counterStep, meterEnergy } from '../instruments/index.js';
import { type Log, counterEnergy, energyUncertainty, integrateEnergy, onOffEdges } from '../logs/index.js';
import { markMs, readingOf } from '../protocols/index.js';
import { type Propagated, type Quantity, errorOf, propagate, subtract } from '../uncertainty/index.js';
import { formatDuration, formatQuantity } from '../units/index.js';
import type { Instrument } from '../workbook/index.js';
import { type RunContext, instrumentOf, withAllowances } from './RunContext.js';
import type { RunEnergy } from './types.js';

/**
 * Logged and typed energy of one run may differ by this many standard uncertainties of their difference. Three
 * lets about 3 of 1000 good runs of a normal spread be refused; a slipped digit or another run's export is far out.
 */
const AGREEMENT_FACTOR = 3;

export interface FoundEnergy {
  /** The reading that counts, joules, with the protocol's allowances on it. */
  readonly quantity: Quantity;
  readonly readings: RunEnergy;
  readonly durationS: number;
  readonly meanPowerW: number;
}

/**
 * The energy of a run from switch-on to switch-off: from the log where there is one, else from the counter as typed.
 * Both come from one meter, so its gain cancels in their difference; where they differ by more than the rest can
 * explain the run is refused, with both shown.
 */
export function runEnergy(context: RunContext, log: Log | null): FoundEnergy {
  const meterId = context.run.instruments.wattmeter;
  if (meterId === undefined)
    throw problem('reading-missing', { run: context.run.id, what: 'wattmeter' }, { file: context.run.id });
  const meter = instrumentOf(context, meterId);
  const logged = log === null ? null : loggedEnergy(context, meter, log);
  const durationS = logged?.durationS ?? markedDuration(context);
  if (logged !== null) noteTimes(context, durationS);
  const typed = typedEnergy(context, meter, durationS);
  const difference = logged === null ? null : propagate(subtract(logged.quantity, typed.quantity));
  if (logged !== null && difference !== null) {
    const idleJ = (logged.standbyW ?? 0) * idleTime(context, durationS);
    refuseDisagreement(context, logged, typed, difference, idleJ);
  }
  const used = logged ?? typed;
  return {
    quantity: withAllowances(context, 'energy', used.quantity, meter.id),
    durationS,
    meanPowerW: used.quantity.value / durationS,
    readings: {
      typed: { energy: propagate(typed.quantity), how: 'counter, typed at the bench' },
      logged: logged === null ? null : { energy: propagate(logged.quantity), how: logged.how },
      counter: logged?.counter ?? null,
      used: logged === null ? 'typed' : 'logged',
      difference,
    },
  };
}

function refuseDisagreement(
  context: RunContext,
  logged: { readonly quantity: Quantity },
  typed: { readonly quantity: Quantity },
  difference: Propagated,
  idleJ: number,
): void {
  const most = AGREEMENT_FACTOR * difference.standardUncertainty;
  // The typed counter runs on before switch-on and after switch-off; the log is cut to the heating.
  if (difference.value <= most && difference.value >= -most - idleJ) return;
  const kWh = (joules: number) => formatQuantity(joules, 'energy', 'kWh', 4);
  throw problem(
    'energy-disagrees',
    {
      run: context.run.id,
      logged: kWh(logged.quantity.value),
      typed: kWh(typed.quantity.value),
      difference: kWh(Math.abs(difference.value)),
      most: kWh(difference.value < 0 ? most + idleJ : most),
    },
    {},
    'Look for another run’s export, a slipped digit, or a counter that was not zeroed.',
  );
}

/** Time between the two readings of the counter in which the heater was off, seconds. */
function idleTime(context: RunContext, durationS: number): number {
  const after = readingOf(context.protocol, context.run, 'energyAfter');
  const before = readingOf(context.protocol, context.run, 'energyBefore');
  if (!before || !after) return 0;
  return Math.max(0, (Date.parse(after.at) - Date.parse(before.at)) / 1000 - durationS);
}

/** Seconds by which the heating may last longer or shorter in the log than between the marks of the bench. */
const TIMES_APART_S = 60;

/** The end temperature belongs to the moment of switching off: a log that says another one is pointed out. */
function noteTimes(context: RunContext, loggedS: number): void {
  const on = markMs(context.protocol, context.run, 'switchOn');
  const off = markMs(context.protocol, context.run, 'switchOff');
  if (on === null || off === null) return;
  const markedS = (off - on) / 1000;
  if (Math.abs(loggedS - markedS) <= Math.max(TIMES_APART_S, 0.02 * markedS)) return;
  context.warnings.push(
    `The log has the heater on for ${formatDuration(Math.round(loggedS))}, the marks at the bench for ${formatDuration(Math.round(markedS))}. Is it the log of this run?`,
  );
}

/** Time between the marks; the meter's errors in watts and the mean power need it. */
function markedDuration(context: RunContext): number {
  const on = markMs(context.protocol, context.run, 'switchOn');
  const off = markMs(context.protocol, context.run, 'switchOff');
  if (on === null || off === null)
    throw problem(
      'reading-missing',
      { run: context.run.id, what: 'switch-on and switch-off' },
      { file: context.run.id },
    );
  const durationS = (off - on) / 1000;
  if (!(durationS > 0)) throw problem('times-backward', { run: context.run.id }, { file: context.run.id });
  return durationS;
}

function typedEnergy(context: RunContext, meter: Instrument, durationS: number): { quantity: Quantity } {
  const after = readingOf(context.protocol, context.run, 'energyAfter');
  const before = readingOf(context.protocol, context.run, 'energyBefore');
  if (after === null)
    throw problem('reading-missing', { run: context.run.id, what: 'energyAfter' }, { file: context.run.id });
  const indicationJ = after.si - (before?.si ?? 0);
  if (!(indicationJ > 0)) {
    throw problem(
      'energy-not-positive',
      { run: context.run.id, got: formatQuantity(indicationJ, 'energy', 'kWh') },
      { file: context.run.id },
    );
  }
  const step = (which: string) =>
    counterStep(context.book, meter, meter.resolution, { run: context.run.id, which });
  const quantity = meterEnergy(context.book, meter, {
    indicationJ,
    // A counter that was zeroed is read too: nobody sees how far past the last step it stood.
    ownErrors: [step('energy-before'), step('energy-after')],
    meanPowerW: indicationJ / durationS,
    durationS,
    level: context.run.setting,
  });
  return { quantity };
}

function loggedEnergy(context: RunContext, meter: Instrument, log: Log) {
  if (log.powerW === null) return counterOnly(context, meter, log);
  const edges = onOffEdges(log);
  const integral = integrateEnergy(log, { fromS: edges.onS, toS: edges.offS });
  const durationS = edges.offS - edges.onS;
  const own = (what: string, name: string, u: number): Quantity =>
    errorOf(
      context.book.get({
        id: `run:${context.run.id}:log-${what}`,
        name: `${meter.name}: ${name}`,
        standardUncertainty: u,
        scope: 'run',
        instrument: meter.id,
      }),
    );
  const counter = counterEnergy(log, { fromS: edges.onBracketS[0], toS: edges.offBracketS[1] });
  const level = { meanPowerW: integral.energyJ / durationS, durationS, level: context.run.setting };
  const digitW = meter.powerResolution ?? log.resolution.powerW;
  const quantity = meterEnergy(context.book, meter, {
    indicationJ: integral.energyJ,
    ownErrors: [
      own('steps', 'steps of the logged power', integral.quantisationUJ),
      own('sampling', 'moment of switching between two samples', integral.samplingUJ),
      ...doubtsOfLog(log, edges).map(({ what, name, u }) => own(what, name, u)),
    ],
    ...level,
    ...(digitW === null ? {} : { powerDigitW: digitW }),
  });
  return {
    quantity,
    durationS,
    standbyW: edges.standbyW,
    how: `logged power, ${integral.method}, ${integral.samples} samples`,
    counter: counter === null ? null : counterReading(context, meter, counter, level),
  };
}

/** What a log may have missed: cycles between its readings, and the power within its gaps. */
function doubtsOfLog(log: Log, edges: { readonly onS: number; readonly offS: number }) {
  const names: Readonly<Record<string, string>> = {
    aliasing: 'cycles that the readings may have missed',
    gaps: 'gaps in the log that were bridged',
  };
  return energyUncertainty(log, { fromS: edges.onS, toS: edges.offS }).sources.flatMap((source) => {
    const name = names[source.name];
    const u = source.standardUncertaintyJ;
    return name !== undefined && u !== null && u > 0 ? [{ what: source.name, name, u }] : [];
  });
}

function counterReading(
  context: RunContext,
  meter: Instrument,
  counter: { readonly energyJ: number; readonly resolutionJ: number },
  level: { readonly meanPowerW: number; readonly durationS: number; readonly level: string },
): { energy: Propagated; how: string } {
  const step = (which: string) =>
    counterStep(context.book, meter, counter.resolutionJ, { run: context.run.id, which });
  const quantity = meterEnergy(context.book, meter, {
    indicationJ: counter.energyJ,
    ownErrors: [step('log-counter-on'), step('log-counter-off')],
    ...level,
  });
  return { energy: propagate(quantity), how: 'counter in the export' };
}

/** An export that holds nothing but a counter: its steps are all there is. */
function counterOnly(context: RunContext, meter: Instrument, log: Log) {
  // From the last reading before the counter moves to the first after it stops: stand-by outside stays out.
  const edges = onOffEdges(log);
  const counter = counterEnergy(log, { fromS: edges.onBracketS[0], toS: edges.offBracketS[1] });
  if (counter === null) throw problem('log-lacks', { what: 'power or energy' }, { file: context.run.id });
  const durationS = markedDuration(context);
  const step = (which: string) =>
    counterStep(context.book, meter, counter.resolutionJ, { run: context.run.id, which });
  const quantity = meterEnergy(context.book, meter, {
    indicationJ: counter.energyJ,
    ownErrors: [step('log-counter-on'), step('log-counter-off')],
    meanPowerW: counter.energyJ / durationS,
    durationS,
    level: context.run.setting,
  });
  return { quantity, durationS, standbyW: null, how: 'counter in the export', counter: null };
}
