import { HeatledgerError } from '../../errors/index.js';
import { onOffEdges } from '../onOffEdges.js';
import type { Readings } from '../Readings.js';
import { clearRise } from './clearRise.js';
import { readsMeans } from './cycleStats.js';
import { eachRun } from './eachRun.js';
import { levelsOf } from './levelsOf.js';

/** A switching as one logger saw it, in seconds after its own first sample. */
export interface ClockEdge {
  readonly on: boolean;
  readonly fromS: number;
  readonly toS: number;
}

/** The switchings of a log, and what they were seen by; or why there are none. */
export interface ClockEdges {
  readonly edges: readonly ClockEdge[];
  readonly by: 'power' | 'counter' | 'temperature';
  readonly why: string;
}

const mostEdges = 200;

/**
 * The switchings that a log shows: those of its power, else first and last of its counter, else the beginning and
 * end of a clear rise of its temperature. The temperature follows the heater by `lagS`, so its brackets reach back.
 */
export function clockEdges(readings: Readings, lagS: readonly [least: number, most: number]): ClockEdges {
  if (readings.has.power) return powerEdges(readings);
  if (readings.has.energy) return counterEdges(readings);
  const none = { edges: [], by: 'temperature' } as const;
  if (!readings.has.temperature) return { ...none, why: 'it has neither power nor energy nor temperature' };
  const rise = clearRise(readings);
  if ('why' in rise) return { ...none, why: rise.why };
  // A noisy mean may move the limit by half a piece more.
  const around = (timeS: number) => ({
    fromS: timeS - rise.widthS - lagS[1],
    toS: timeS + rise.widthS - lagS[0],
  });
  const edges = [
    ...(rise.atStart ? [] : [{ on: true, ...around(rise.fromS) }]),
    ...(rise.atEnd ? [] : [{ on: false, ...around(rise.toS) }]),
  ];
  return { edges, by: 'temperature', why: 'it rises from the first reading to the last' };
}

function powerEdges(readings: Readings): ClockEdges {
  const levels = levelsOf(readings);
  if (!levels) return { edges: [], by: 'power', why: 'its power stays below 10 W' };
  const edges: ClockEdge[] = [];
  const search = { fromS: 0, toS: readings.outline.endS, levels, means: readsMeans(readings) };
  eachRun(readings, search, ({ on, end }) => {
    if (end && edges.length < mostEdges) edges.push({ on: !on, fromS: end.fromS, toS: end.toS });
  });
  return { edges, by: 'power', why: 'it is on from the first reading to the last' };
}

function counterEdges(readings: Readings): ClockEdges {
  try {
    const { onBracketS, offBracketS, startsOn, endsOn } = onOffEdges(readings);
    const edges = [
      ...(startsOn ? [] : [{ on: true, fromS: onBracketS[0], toS: onBracketS[1] }]),
      ...(endsOn ? [] : [{ on: false, fromS: offBracketS[0], toS: offBracketS[1] }]),
    ];
    return { edges, by: 'counter', why: 'it rises from the first reading to the last' };
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    return { edges: [], by: 'counter', why: 'its counter shows no heating' };
  }
}
