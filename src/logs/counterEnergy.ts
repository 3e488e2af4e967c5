import { problem } from '../errors/index.js';
import { exportUnit } from './exportUnits.js';
import type { Log } from './types.js';

/** The energy by the meter's own counter. */
export interface CounterEnergy {
  readonly energyJ: number;
  /** One step of the counter. */
  readonly resolutionJ: number;
  /** Times the counter went back to zero; what it counted just before that is lost. */
  readonly resets: number;
  /** Times it ran over its last digit. */
  readonly wraps: number;
}

/**
 * The difference of the energy counter from the last reading at or before `fromS` to the first at or after `toS`.
 * A counter that runs over (99.99 to 0.01) or is reset is followed. `null` where the export has no counter.
 *
 * Units: seconds after the first sample, joules.
 * Errors: `log-not-covering`; `log-counter-falls` where it falls without being reset.
 *
 * @example
 * const log = readExport(new TextEncoder().encode('t [s],E [Wh]\n0,10.0\n60,25.0\n120,40.0\n'));
 * counterEnergy(log, { fromS: 0, toS: 120 }).energyJ // => 108000
 */
export function counterEnergy(
  log: Log,
  limits: { readonly fromS: number; readonly toS: number },
): CounterEnergy | null {
  const { energyJ, timesS } = log;
  if (!energyJ || log.resolution.energyJ === null) return null;
  const known = Array.from(energyJ.keys()).filter((index) => !Number.isNaN(energyJ[index]!));
  const first = known.findLast((index) => timesS[index]! <= limits.fromS);
  const last = known.find((index) => timesS[index]! >= limits.toS);
  if (first === undefined || last === undefined || !(limits.fromS < limits.toS)) {
    const [startS, endS] = [timesS[known[0] ?? 0] ?? 0, timesS[known[known.length - 1] ?? 0] ?? 0];
    throw problem('log-not-covering', { ...limits, startS, endS });
  }
  const unitJ =
    exportUnit(log.mapping.columns.find(({ role }) => role === 'energy')?.unit ?? 'J')?.factor ?? 1;
  let sum = 0;
  const counts = { resets: 0, wraps: 0 };
  for (let at = known.indexOf(first); known[at]! < last; at++) {
    const [from, to] = [energyJ[known[at]!]!, energyJ[known[at + 1]!]!];
    const full = to < from ? overflowAt(from, to, unitJ) : null;
    if (to >= from) sum += to - from;
    else if (full !== null) {
      sum += full - from + to;
      counts.wraps++;
    } else if (to < from / 2) {
      sum += to;
      counts.resets++;
    } else
      throw problem('log-counter-falls', {
        fromWh: from / 3600,
        toWh: to / 3600,
        atS: timesS[known[at + 1]!]!,
      });
  }
  return { energyJ: sum, resolutionJ: log.resolution.energyJ, ...counts };
}

// A counter of n digits runs over at a power of ten of its own unit: it stood within 1 % below and starts again
// within 1 % above zero.
function overflowAt(from: number, to: number, unitJ: number): number | null {
  if (from <= 0) return null;
  const full = 10 ** Math.ceil(Math.log10(from / unitJ)) * unitJ;
  return from >= 0.99 * full && to >= 0 && to <= 0.01 * full ? full : null;
}
