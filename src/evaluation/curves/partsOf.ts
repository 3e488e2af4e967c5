import type { Stretch } from '../../fitting/index.js';
import { type Phases, phases } from '../../logs/index.js';
import { markMs, readingOf } from '../../protocols/index.js';
import { logStartMs } from '../methods/courseOf.js';
import type { RunContext } from '../RunContext.js';
import type { PlacedLogs } from './placeLogs.js';
import type { CurvePart } from './types.js';

/** A part before anything is fitted to it; seconds of the temperature log. */
export type PlainPart = Pick<CurvePart, 'name' | 'stretch' | 'evidence' | 'afterHeatingS'>;

/** What the logs show of a run; seconds of the temperature log. */
export interface FoundParts {
  readonly phases: Phases;
  readonly parts: readonly PlainPart[];
  readonly heating: Stretch | null;
}

/** The vessel is taken off for a weighing so long before it, and back and settled so long after it, s; common practice, no source. */
const OFF_BEFORE_S = 60;
const BACK_AFTER_S = 120;
/** A reading of the end temperature this near before the weighing is the last one in the load. */
const READ_BEFORE_S = 300;

/** Heating with its after-period and the cool-down, as the logs show them; a cool-down test is one whole, between its marks. */
export function partsOf(context: RunContext, placed: PlacedLogs): FoundParts {
  const { temperature } = placed;
  const endS = temperature.timesS.at(-1) ?? 0;
  const startMs = logStartMs(context, temperature);
  const inLog = (ms: number | null): number | null =>
    ms === null || startMs === null ? null : (ms - startMs) / 1000;
  if (context.protocol.evaluates === 'cool-down') {
    const fromS = inLog(markMs(context.protocol, context.run, 'begin')) ?? 0;
    const toS = Math.min(endS, inLog(markMs(context.protocol, context.run, 'end')) ?? endS);
    const evidence = 'between the marks of the bench';
    const stretch = { fromS: Math.max(0, fromS), toS };
    return {
      phases: { phases: [{ name: 'cool-down', ...stretch, evidence }], absent: [] },
      parts: [{ name: 'cool-down', stretch, evidence, afterHeatingS: null }],
      heating: null,
    };
  }
  const found = phasesOf(placed, endS);
  const phase = (name: 'heating' | 'after-period' | 'cool-down') =>
    found.phases.find((each) => each.name === name);
  const [heating, after, cooling] = [phase('heating'), phase('after-period'), phase('cool-down')];
  const away = offTheHeater(context, inLog).filter(
    ({ fromS }) => fromS > (heating?.toS ?? 0) && fromS < endS,
  );
  const parts: PlainPart[] = [];
  if (heating) {
    const to = Math.min(after?.toS ?? heating.toS, ...away.map(({ fromS }) => fromS));
    const cut = away.some(({ fromS }) => fromS === to);
    const evidence = `from switch-on to ${cut ? 'the weighing' : after ? 'where the temperature falls steadily' : 'the end of the heating'}`;
    const ended = after && !cooling && !cut ? 'from switch-on to the end of the log' : evidence;
    parts.push({
      name: 'warm-up',
      stretch: { fromS: heating.fromS, toS: to },
      evidence: ended,
      afterHeatingS: to - heating.toS,
    });
  }
  if (cooling) parts.push(coolingPart(cooling, away));
  return { phases: found, parts, heating: heating ?? null };
}

/** The heating by the power where there is one, and the other phases by the temperature. */
function phasesOf({ temperature, power, powerStartS }: PlacedLogs, endS: number): Phases {
  if (power === null || power === temperature) return phases(temperature);
  const byPower = phases(power);
  const heating = byPower.phases.find(({ name }) => name === 'heating');
  if (!heating) return byPower;
  const heatingFromS = Math.max(0, heating.fromS + powerStartS);
  const heatingToS = Math.min(endS, heating.toS + powerStartS);
  if (!(heatingToS > heatingFromS)) {
    const why = 'the two logs don’t overlap';
    return { phases: [], absent: byPower.phases.map(({ name }) => ({ name, why })) };
  }
  const found = phases(temperature, { limits: { heatingFromS, heatingToS } });
  const evidence = (name: string, own: string) =>
    name === 'heating' ? `by the power: ${heating.evidence}` : own;
  return {
    ...found,
    phases: found.phases.map((each) => ({ ...each, evidence: evidence(each.name, each.evidence) })),
  };
}

/** Apart from weighings: of what lies before and after them the longest. */
function coolingPart(cooling: Stretch, away: readonly Stretch[]): PlainPart {
  const cuts = away.filter(({ fromS, toS }) => toS > cooling.fromS && fromS < cooling.toS);
  const begins = [cooling.fromS, ...cuts.map(({ toS }) => toS)];
  const ends = [...cuts.map(({ fromS }) => fromS), cooling.toS];
  const pieces = begins.map((fromS, i) => ({ fromS, toS: ends[i] as number }));
  const stretch = pieces.reduce((a, b) => (b.toS - b.fromS > a.toS - a.fromS ? b : a));
  const first = stretch.fromS === cooling.fromS;
  const from = first ? 'from where the temperature falls steadily' : 'from after the weighing';
  const evidence = stretch.toS === cooling.toS ? from : `${from} to the next weighing`;
  return { name: 'cool-down', stretch, evidence, afterHeatingS: null };
}

/** When the vessel was off the heater to be weighed, by the times of the readings; empty where the log has no clock. */
function offTheHeater({ protocol, run }: RunContext, inLog: (ms: number) => number | null): Stretch[] {
  const isMass = (id: string) =>
    protocol.steps.some((each) => each.id === id && each.kind === 'reading' && each.quantity === 'mass');
  const last = readingOf(protocol, run, 'endTemperature');
  const readS = last === null ? null : inLog(Date.parse(last.at));
  return run.readings
    .filter(({ step }) => isMass(step))
    .flatMap(({ at }) => {
      const s = inLog(Date.parse(at));
      if (s === null) return [];
      const read = readS !== null && readS < s && s - readS < READ_BEFORE_S;
      return [{ fromS: read ? readS : s - OFF_BEFORE_S, toS: s + BACK_AFTER_S }];
    })
    .sort((a, b) => a.fromS - b.fromS);
}
