import { problem } from '../../errors/index.js';
import {
  fitOneNode,
  fitQuantities,
  fitTwoNode,
  type ThermalData,
  type ThermalFit,
} from '../../fitting/index.js';
import { type Log, onOffEdges } from '../../logs/index.js';
import { markMs, readingOf } from '../../protocols/index.js';
import { add, errorOf, type Quantity, scale } from '../../uncertainty/index.js';
import type { RunContext } from '../RunContext.js';
import type { RunEvaluation } from '../types.js';
import { courseOf } from './courseOf.js';
import { fitGain } from './fitGain.js';
import { roomOf } from './roomOf.js';
import { thermometerOf } from './thermometerOf.js';
import type { StoredRun } from './types.js';

/** The vessel is off the heater around the weighing: from the end temperature to so long after it. */
const BACK_AFTER_S = 120;
const BEFORE_ON_S = 60;
/** A probe in a sheath is behind the water by this much; common practice, no source. */
const LAG = { value: 5, halfWidth: 5 } as const;

/** κ/(C + C_b) and UA/(C + C_b) from the logs of a heating; null where one of power and temperature is missing. */
export function loggedFill(
  context: RunContext,
  stored: StoredRun,
  evaluation: RunEvaluation,
  bodyRatio: number,
) {
  const { powerLog, temperatureLog, run, protocol } = stored;
  const onMs = markMs(protocol, run, 'switchOn');
  if (!powerLog?.powerW || !temperatureLog || onMs === null) return null;
  const fromMs = onMs - BEFORE_ON_S * 1000;
  const room = roomOf(context, fromMs);
  const course = courseOf(context, temperatureLog, fromMs, Number.MAX_SAFE_INTEGER);
  const { startK, endK } = evaluation.conditions;
  const thermometer = thermometerOf(
    context,
    { atK: startK, level: 'start', role: 'startTemperature' },
    { atK: endK, level: 'end', role: 'endTemperature' },
  );
  const gain = fitGain(context, evaluation);
  const temperaturesK = course.temperaturesK.map(thermometer.corrected);
  const power = powerSince(powerLog, powerStartMs(powerLog, onMs), fromMs, gain.factor);
  const behind = (lagS: number): ThermalData => ({
    temperature: { timesS: course.timesS.map((t) => t - lagS), temperaturesK },
    power,
    ambient: room.ambient,
  });
  const { fit, again } = bestFit(behind(LAG.value), leaveOut(context, fromMs), bodyRatio);
  if (!fit.verdict.fits) context.warnings.push(fit.verdict.sentence);
  const results = fitQuantities(fit, context.book, {
    id: `run:${run.id}:fit`,
    errors: {
      thermometerOffset: thermometer.offset,
      thermometerGain: thermometer.gain,
      ambientOffset: room.error,
      meterGain: gain.error,
    },
  });
  const lag = lagError(context);
  const later = again(behind(LAG.value + LAG.halfWidth));
  const withLag = (quantity: Quantity, name: string) =>
    add(quantity, scale(lag, (parameterOf(later, name) - parameterOf(fit, name)) / LAG.halfWidth));
  const rates = {
    heatingRate: withLag(results.heatingRate as Quantity, 'heatingRate'),
    lossRate: results.lossRate && withLag(results.lossRate, 'lossRate'),
  };
  return { rates, fit, how: fit.model === 'twoNode' ? 'fit of two nodes' : 'fit of one node' };
}

const parameterOf = (fit: ThermalFit, name: string): number =>
  fit.parameters.find((each) => each.name === name)?.value ?? Number.NaN;

/** One probe, one lag: shared by all runs with it. */
function lagError(context: RunContext): Quantity {
  const id = context.run.instruments.thermometer ?? 'none';
  return errorOf(
    context.book.get({
      id: `instrument:${id}:lag`,
      name: 'probe behind the water, seconds',
      halfWidth: LAG.halfWidth,
      scope: 'instrument',
      assumed: true,
      instrument: id,
    }),
  );
}

/** Two nodes where the data carry them, the body as warm as the load at the start or not; else one. */
function bestFit(data: ThermalData, leaveOut: { fromS: number; toS: number }[], bodyRatio: number) {
  const ways = [
    (now: ThermalData) => fitOneNode(now, { leaveOut }),
    (now: ThermalData) => fitTwoNode(now, { leaveOut, bodyRatio }),
    (now: ThermalData) => fitTwoNode(now, { leaveOut, bodyRatio, bodyStart: 'unknown' }),
  ];
  const fits = ways.map((again) => ({ again, fit: again(data) }));
  const usable = fits.filter(
    ({ fit }) => fit.converged && fit.covariance !== null && fit.sensitivities !== null,
  );
  const best = usable.sort((a, b) => a.fit.aicc - b.fit.aicc)[0];
  if (best) return best;
  throw problem('fit-without-covariance', { model: 'the heating', reason: fits[0]?.fit.stopReason ?? '' });
}

/** Without a clock of its own a log is laid on the mark by its switch-on. */
function powerStartMs(log: Log, onMs: number): number {
  return log.startUtcMs ?? onMs - onOffEdges(log).onS * 1000;
}

function powerSince(log: Log, startMs: number, fromMs: number, factor: number) {
  const offsetS = (startMs - fromMs) / 1000;
  const known = Array.from(log.timesS.keys()).filter((i) => !Number.isNaN(log.powerW?.[i]));
  return {
    timesS: known.map((i) => (log.timesS[i] as number) + offsetS),
    powerW: known.map((i) => factor * (log.powerW?.[i] as number)),
  };
}

/** The readings while the vessel was on the scale. */
function leaveOut(context: RunContext, fromMs: number) {
  const at = (role: 'endTemperature' | 'finalMass') =>
    (Date.parse(readingOf(context.protocol, context.run, role)?.at ?? '') - fromMs) / 1000;
  const [fromS, toS] = [at('endTemperature'), at('finalMass') + BACK_AFTER_S];
  return toS > fromS ? [{ fromS, toS }] : [];
}
