import { HeatledgerError, problem } from '../../errors/index.js';
import { onOffEdges } from '../onOffEdges.js';
import type { Readings } from '../Readings.js';
import { readingsOf } from '../readingsOf.js';
import type { Log } from '../types.js';
import { clearRise } from './clearRise.js';
import { coolDownFrom } from './coolDownFrom.js';
import { type OtherTemperature, placedTemperature } from './placedTemperature.js';
import { digits, wattWords } from './words.js';

export type PhaseName = 'fore-period' | 'heating' | 'after-period' | 'cool-down';

/** A part of a test as the log shows it. */
export interface Phase {
  readonly name: PhaseName;
  /** Seconds after the first sample. */
  readonly fromS: number;
  readonly toS: number;
  /** Why it begins and ends there, in words. */
  readonly evidence: string;
}

/** The phases that are there, in time order, and why others are not. */
export interface Phases {
  readonly phases: readonly Phase[];
  readonly absent: readonly { readonly name: PhaseName; readonly why: string }[];
}

/** Limits that a person states; the rest is found from the log. Seconds after the first sample. */
export interface PhaseLimits {
  readonly heatingFromS?: number;
  readonly heatingToS?: number;
  readonly coolDownFromS?: number;
  readonly coolDownToS?: number;
}

interface Heating {
  readonly fromS: number;
  readonly toS: number;
  readonly beginsBefore: boolean;
  readonly endsAfter: boolean;
  readonly evidence: string;
}

const stated = 'stated';

/**
 * Parts a log into fore-period (before switch-on), heating (pauses of a thermostat included), after-period (from
 * switch-off until the temperature falls steadily) and cool-down. Heating is found from the power or the counter, without
 * them from a clear rise of the temperature; the cool-down from the temperature, in this log or another one whose
 * clock is known or aligned. A phase that isn't in the log is absent, with the reason; it is never zero long.
 *
 * Rules for the temperature are common practice, no source: means of 60 s, three falls in succession.
 * Units: seconds after the first sample. Errors: `log-limits-bad` where stated limits are out of order or outside the log.
 *
 * @example
 * const log = readExport(new TextEncoder().encode('t [s],P [W]\n0,1\n10,1\n20,900\n30,900\n40,1\n'));
 * phases(log).phases.map(({ name, fromS, toS }) => [name, fromS, toS])
 * // => [['fore-period', 0, 15], ['heating', 15, 35], ['after-period', 35, 40]]
 */
export function phases(
  log: Log | Readings,
  options: { readonly limits?: PhaseLimits; readonly temperatureLog?: OtherTemperature } = {},
): Phases {
  const readings = readingsOf(log);
  const { limits = {}, temperatureLog } = options;
  const heating = heatingOf(readings, limits);
  if ('why' in heating) {
    const names = ['fore-period', 'heating', 'after-period', 'cool-down'] as const;
    return { phases: [], absent: names.map((name) => ({ name, why: heating.why })) };
  }
  const endS = limits.coolDownToS ?? readings.outline.endS;
  checkOrder(readings, heating, limits, endS);
  const found: Phase[] = [];
  const absent: Phases['absent'][number][] = [];
  if (heating.beginsBefore || heating.fromS <= 0)
    absent.push({ name: 'fore-period', why: 'the log begins while it is heated already' });
  else found.push({ name: 'fore-period', fromS: 0, toS: heating.fromS, evidence: 'before the heating' });
  const { fromS, toS, evidence } = heating;
  found.push({ name: 'heating', fromS, toS, evidence });
  if (heating.endsAfter || toS >= endS) {
    const why = 'the log ends while it is still heated';
    absent.push({ name: 'after-period', why }, { name: 'cool-down', why });
    return { phases: found, absent };
  }
  const cooling = coolingOf(readings, temperatureLog, limits, { fromS: toS, toS: endS });
  const turnS = 'why' in cooling ? endS : cooling.fromS;
  if (turnS > toS)
    found.push({ name: 'after-period', fromS: toS, toS: turnS, evidence: 'after the heating' });
  else absent.push({ name: 'after-period', why: 'the cool-down begins with the end of the heating' });
  if ('why' in cooling) absent.push({ name: 'cool-down', why: cooling.why });
  else found.push({ name: 'cool-down', ...cooling });
  return { phases: found, absent };
}

function heatingOf(readings: Readings, limits: PhaseLimits): Heating | { readonly why: string } {
  const { heatingFromS, heatingToS } = limits;
  const both = heatingFromS !== undefined && heatingToS !== undefined;
  const found = both ? null : foundHeating(readings);
  if (found && 'why' in found) return found;
  return {
    fromS: heatingFromS ?? found!.fromS,
    toS: heatingToS ?? found!.toS,
    beginsBefore: heatingFromS === undefined && found!.beginsBefore,
    endsAfter: heatingToS === undefined && found!.endsAfter,
    evidence: [
      heatingFromS === undefined ? `from ${found!.opening}` : `beginning ${stated}`,
      heatingToS === undefined ? `to ${found!.closing}` : `end ${stated}`,
    ].join(', '),
  };
}

function foundHeating(readings: Readings) {
  if (!readings.has.power && !readings.has.energy) return risingHeating(readings);
  try {
    const edges = onOffEdges(readings);
    const plusMinus = ([fromS, toS]: readonly [number, number]) => `±${digits((toS - fromS) / 2, 2)} s`;
    const level = `${wattWords(edges.thresholdW)}`;
    return {
      fromS: edges.onS,
      toS: edges.offS,
      beginsBefore: edges.startsOn,
      endsAfter: edges.endsOn,
      opening: `the first reading of at least ${level} (${plusMinus(edges.onBracketS)})`,
      closing: `the last one (${plusMinus(edges.offBracketS)})`,
    };
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    return { why: error.message };
  }
}

function risingHeating(readings: Readings) {
  if (!readings.has.temperature) return { why: 'the log has neither power nor energy nor temperature' };
  const rise = clearRise(readings);
  if ('why' in rise) return rise;
  const { fromS, toS, widthS, riseK, atStart, atEnd } = rise;
  const within = `(±${digits(widthS / 2, 2)} s, and later than the heater by the lag of the load)`;
  return {
    fromS,
    toS,
    beginsBefore: atStart,
    endsAfter: atEnd,
    opening: `where the temperature begins to rise at half its usual rate ${within}, ${digits(riseK, 3)} K in all`,
    closing: 'where it rises at half that rate for the last time',
  };
}

function coolingOf(
  readings: Readings,
  temperatureLog: OtherTemperature | undefined,
  limits: PhaseLimits,
  after: { readonly fromS: number; readonly toS: number },
): Omit<Phase, 'name'> | { readonly why: string } {
  if (limits.coolDownFromS !== undefined)
    return { fromS: limits.coolDownFromS, toS: after.toS, evidence: `beginning ${stated}` };
  const placed = placedTemperature(readings, temperatureLog);
  if ('why' in placed) return placed;
  const { fromOwn, toOwn } = placed;
  const found = coolDownFrom(placed.readings, { fromS: fromOwn(after.fromS), toS: fromOwn(after.toS) });
  if (!found) return { why: 'the temperature doesn’t fall steadily before the log ends' };
  const highestC = digits(found.highest.meanK - 273.15);
  const evidence = `from where means over ${digits(found.widthS, 3)} s fall three times in succession after the highest of ${highestC} °C (common practice, no source)`;
  return { fromS: toOwn(found.fromS), toS: after.toS, evidence };
}

function checkOrder(readings: Readings, { fromS, toS }: Heating, limits: PhaseLimits, endS: number): void {
  const order = [0, fromS, toS, limits.coolDownFromS ?? toS, endS, readings.outline.endS];
  const rises = order.every((time, i) => i === 0 || time >= order[i - 1]!) && fromS < toS;
  const all = {
    heatingFromS: fromS,
    heatingToS: toS,
    coolDownFromS: limits.coolDownFromS,
    coolDownToS: endS,
  };
  if (!rises || (limits.coolDownFromS ?? -1) >= endS)
    throw problem('log-limits-bad', { ...all, endS: readings.outline.endS });
}
