import { problem } from '../../errors/index.js';
import type { Readings } from '../Readings.js';
import { readingsOf } from '../readingsOf.js';
import type { Log } from '../types.js';
import { type ClockEdge, type ClockEdges, clockEdges } from './clockEdges.js';
import { type FeasibleClocks, feasibleClocks } from './feasibleClocks.js';
import type { ClockAlignment } from './timeInA.js';
import { countWords, digits } from './words.js';

/** How two clocks stand to each other, and what it was found from. */
export interface AlignedLogs extends ClockAlignment {
  /** The switchings that both logs show, with their brackets in seconds after the first sample of each. */
  readonly edges: readonly { readonly on: boolean; readonly a: ClockEdge; readonly b: ClockEdge }[];
  readonly evidence: string;
}

interface Match {
  readonly shift: number;
  readonly pairs: AlignedLogs['edges'];
  readonly atS: number;
  readonly clocks: FeasibleClocks;
}

const mostDrift = 0.01;
const usualLagS = [0, 120] as const;

/**
 * Offset and drift between the clocks of two loggers that saw the same heating, from the switchings that both show.
 * A switching lies anywhere between two readings of each log; the line of offset and drift must pass the brackets
 * of all of them, and is taken as uniform among those that do. One switching gives the offset only: the drift is
 * then `null`, which isn't zero. A temperature follows the heater by a lag: from 0 to 120 s unless stated (common
 * practice, no source), which the uncertainty holds. Clocks are taken to differ by less than 1 %.
 *
 * Formula: tA = tB + offset + drift·(tB − at). Units: seconds, drift in millionths (ppm).
 * Errors: `log-no-edges`, `log-edges-differ` where no offset makes them fit, `log-edges-ambiguous` where two do.
 *
 * @example
 * const log = (onS) => readExport(new TextEncoder().encode(
 *   `t [s],P [W]\n${[...Array(300).keys()].map((t) => `${t},${t >= onS && t < onS + 200 ? 900 : 1}`).join('\n')}\n`));
 * const clocks = alignLogs(log(50), log(20));
 * clocks.offsetS // => 30.000
 * timeInA(clocks, 120).timeS // => 150.000
 */
export function alignLogs(
  a: Log | Readings,
  b: Log | Readings,
  options: { readonly lagS?: readonly [least: number, most: number] } = {},
): AlignedLogs {
  const lagS = options.lagS ?? usualLagS;
  const [first, second] = [clockEdges(readingsOf(a), lagS), clockEdges(readingsOf(b), lagS)];
  for (const [which, { edges, why }] of [
    ['first', first],
    ['second', second],
  ] as const)
    if (edges.length === 0) throw problem('log-no-edges', { which, why });
  const [edgesA, edgesB] = comparable(first, second);
  const { pairs, atS, clocks } = bestMatch(edgesA, edgesB);
  const one = pairs.length === 1;
  return {
    offsetS: clocks.offsetS,
    offsetUS: clocks.offsetUS,
    atS,
    driftPpm: one ? null : 1e6 * clocks.drift,
    driftUPpm: one ? null : 1e6 * clocks.driftU,
    edges: pairs,
    evidence: evidenceOf(pairs.length, first, second, lagS),
  };
}

/** A temperature or a counter shows the outer switchings only. */
function comparable(a: ClockEdges, b: ClockEdges): [readonly ClockEdge[], readonly ClockEdge[]] {
  if (a.by === 'power' && b.by === 'power') return [a.edges, b.edges];
  return [outer(a.edges), outer(b.edges)];
}

function outer(edges: readonly ClockEdge[]): readonly ClockEdge[] {
  return [edges.find(({ on }) => on), edges.findLast(({ on }) => !on)].flatMap((edge) => edge ?? []);
}

function bestMatch(a: readonly ClockEdge[], b: readonly ClockEdge[]): Match {
  const matches: Match[] = [];
  for (let shift = 1 - a.length; shift < b.length; shift++) {
    const match = matchAt(a, b, shift);
    if (match) matches.push(match);
  }
  matches.sort((one, other) => other.pairs.length - one.pairs.length);
  const [best, next] = matches;
  const enough = Math.min(a.length, b.length, 2);
  if (!best || best.pairs.length < enough)
    throw problem('log-edges-differ', { first: a.length, second: b.length });
  // Where both logs show switchings that the other one lacks, a regular thermostat may fit at many offsets.
  const overlapOnly = best.pairs.length < a.length && best.pairs.length < b.length;
  const rival =
    next && (next.pairs.length === best.pairs.length || (overlapOnly && next.pairs.length >= enough));
  if (rival) {
    const [firstS, secondS] = [best.clocks.offsetS, next.clocks.offsetS];
    throw problem('log-edges-ambiguous', { firstS, secondS });
  }
  return best;
}

/** All edges of `a` against those of `b` that stand `shift` further on; `null` where they don't fit. */
function matchAt(a: readonly ClockEdge[], b: readonly ClockEdge[], shift: number): Match | null {
  const pairs = a.flatMap((edge, i) => {
    const other = b[i + shift];
    return other ? [{ on: edge.on, a: edge, b: other }] : [];
  });
  if (pairs.length === 0 || pairs.some((pair) => pair.a.on !== pair.b.on)) return null;
  const middle = ({ fromS, toS }: ClockEdge) => (fromS + toS) / 2;
  const atS = pairs.reduce((sum, pair) => sum + middle(pair.b), 0) / pairs.length;
  if (pairs.length === 1) return { shift, pairs, atS, clocks: fromOne(pairs[0]!) };
  const gates = pairs.map((pair) => ({
    xS: middle(pair.b) - atS,
    leastS: pair.a.fromS - pair.b.toS,
    mostS: pair.a.toS - pair.b.fromS,
  }));
  const clocks = feasibleClocks(gates, mostDrift);
  return clocks && { shift, pairs, atS, clocks };
}

/** One switching: the difference of two rectangular times. */
function fromOne({ a, b }: { readonly a: ClockEdge; readonly b: ClockEdge }): FeasibleClocks {
  const offsetS = (a.fromS + a.toS - b.fromS - b.toS) / 2;
  const offsetUS = Math.hypot(a.toS - a.fromS, b.toS - b.fromS) / Math.sqrt(12);
  return { offsetS, offsetUS, drift: Number.NaN, driftU: Number.NaN };
}

function evidenceOf(count: number, a: ClockEdges, b: ClockEdges, lagS: readonly [number, number]): string {
  const lag =
    a.by === 'temperature' || b.by === 'temperature'
      ? `; a temperature is taken to follow the heater by ${digits(lagS[0])} to ${digits(lagS[1])} s`
      : '';
  const drift = count === 1 ? '; one alone says nothing of the drift' : '';
  return `${countWords(count, 'switching')} in both logs, seen by ${a.by} in the first and by ${b.by} in the second${lag}${drift}`;
}
