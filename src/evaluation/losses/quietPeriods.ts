import { type Stretch, turningPoint } from '../../fitting/index.js';
import { type Log, phases } from '../../logs/index.js';
import { markMs } from '../../protocols/index.js';
import type { RunContext } from '../RunContext.js';

/** The quiet periods before and after a heating, in seconds of the temperature log. */
export interface QuietPeriods {
  readonly forePeriod: Stretch;
  readonly afterPeriod: Stretch;
  readonly switchOffS: number;
  /** Time by which the load follows the heater body. */
  readonly lagS: number;
  /** Readings of the log whose temperature is known. */
  readonly timesS: readonly number[];
  readonly temperaturesK: readonly number[];
}

/** The longest and the shortest period that is taken for a straight line, s; common practice, no source. */
const LONGEST_S = 900;
const SHORTEST_S = 120;
/** After a weighing the vessel comes back into the heater and settles, s; common practice, no source. */
const SETTLING_S = 60;
/** Time constants after which the heater body has given off its heat, as `regnaultPfaundler` asks. */
const LAGS = 5;

type Why = { readonly why: string };

/**
 * Fore- and after-period of a run in its temperature log. The fore-period begins after the last weighing and ends with
 * switch-on; the after-period begins five lags after switch-off or where the temperature falls steadily, whichever is
 * later, and ends with the next weighing. The lag follows from the turning point: after switch-off
 * dT/dt = (h + a)·exp(−t/lag) − a, h the rate of heating and a that of the fall, so that lag = t_turn/ln(1 + h/a).
 */
export function quietPeriods(context: RunContext, log: Log | null, powerLog: Log | null): QuietPeriods | Why {
  if (!log?.temperatureK) return { why: 'No temperature log was kept.' };
  if (log.startUtcMs === null) return { why: 'The clock of the temperature log isn’t known.' };
  const inLog = (ms: number) => (ms - (log.startUtcMs as number)) / 1000;
  const known = Array.from(log.temperatureK, (_, i) => i).filter((i) => !Number.isNaN(log.temperatureK![i]!));
  const timesS = known.map((i) => log.timesS[i]!);
  const temperaturesK = known.map((i) => log.temperatureK![i]!);
  const [firstS, lastS] = [timesS[0], timesS.at(-1)];
  if (firstS === undefined || lastS === undefined)
    return { why: 'The temperature log holds no temperatures.' };
  const heating = heatingMs(context, powerLog);
  if (heating === null) return { why: 'Nothing says when the heater was on.' };
  const [onS, offS] = heating.map(inLog) as [number, number];
  const weighings = context.run.readings
    .filter(({ step }) =>
      context.protocol.steps.some(
        (each) => each.id === step && each.kind === 'reading' && each.quantity === 'mass',
      ),
    )
    .map(({ at }) => inLog(Date.parse(at)));
  const foreS = Math.max(
    firstS,
    onS - LONGEST_S,
    ...weighings.filter((s) => s < onS).map((s) => s + SETTLING_S),
  );
  if (!(onS - foreS >= SHORTEST_S))
    return {
      why: `The log shows ${minutes(onS - foreS)} of rest before switch-on; ${minutes(SHORTEST_S)} or more are needed.`,
    };
  const endS = Math.min(lastS, ...weighings.filter((s) => s > offS));
  const after = afterPeriod(log, { timesS, temperaturesK }, { onS, offS, endS });
  if ('why' in after) return after;
  return {
    forePeriod: { fromS: foreS, toS: onS },
    afterPeriod: after.period,
    switchOffS: offS,
    lagS: after.lagS,
    timesS,
    temperaturesK,
  };
}

/** Switch-on and switch-off by the power log where its clock is known, else by the marks. */
function heatingMs(context: RunContext, powerLog: Log | null): [number, number] | null {
  if (powerLog?.startUtcMs != null) {
    const found = phases(powerLog).phases.find(({ name }) => name === 'heating');
    if (found) return [powerLog.startUtcMs + found.fromS * 1000, powerLog.startUtcMs + found.toS * 1000];
  }
  const on = markMs(context.protocol, context.run, 'switchOn');
  const off = markMs(context.protocol, context.run, 'switchOff');
  return on !== null && off !== null && off > on ? [on, off] : null;
}

function afterPeriod(
  log: Log,
  series: { readonly timesS: readonly number[]; readonly temperaturesK: readonly number[] },
  { onS, offS, endS }: { readonly onS: number; readonly offS: number; readonly endS: number },
): { readonly period: Stretch; readonly lagS: number } | Why {
  const tooShort = (fromS: number) =>
    `After switch-off the log shows the vessel at rest for ${minutes(endS - offS)}; it takes ${minutes(fromS - offS)} until the heater body has given off its heat, and then ${minutes(SHORTEST_S)} or more.`;
  if (!(endS - offS >= SHORTEST_S)) return { why: tooShort(offS) };
  const limits = { heatingFromS: onS, heatingToS: offS, coolDownToS: endS };
  const falling = phases(log, { limits }).phases.find(({ name }) => name === 'cool-down');
  if (!falling) return { why: 'The log shows no steady fall after the heating.' };
  const turn = turningPoint({ ...series, fromS: offS });
  const turnS = turn.timeS !== null && turn.timeS < falling.fromS ? turn.timeS : falling.fromS;
  const fall = -slopeOf(series, falling.fromS, Math.min(endS, falling.fromS + LONGEST_S));
  if (!(fall > 0)) return { why: 'The log shows no steady fall after the heating.' };
  const rate = Math.max(0, slopeOf(series, onS, offS));
  const lagS = rate > 0 ? (turnS - offS) / Math.log1p(rate / fall) : 0;
  const fromS = Math.max(falling.fromS, offS + LAGS * lagS);
  const toS = Math.min(endS, fromS + LONGEST_S);
  if (!(toS - fromS >= SHORTEST_S)) return { why: tooShort(fromS) };
  return { period: { fromS, toS }, lagS };
}

/** Mean of the second half of a stretch less that of the first, over half its length: K/s. */
function slopeOf(
  {
    timesS,
    temperaturesK,
  }: { readonly timesS: readonly number[]; readonly temperaturesK: readonly number[] },
  fromS: number,
  toS: number,
): number {
  const middle = (fromS + toS) / 2;
  const mean = (from: number, to: number) => {
    const within = temperaturesK.filter((_, i) => timesS[i]! >= from && timesS[i]! < to);
    return within.reduce((sum, kelvin) => sum + kelvin, 0) / within.length;
  };
  return (mean(middle, toS) - mean(fromS, middle)) / ((toS - fromS) / 2);
}

function minutes(seconds: number): string {
  return `${Number((Math.max(0, seconds) / 60).toFixed(1))} min`;
}
