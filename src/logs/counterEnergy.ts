import { problem } from '../errors/index.js';
import { counterStep } from './counterStep.js';
import type { Block } from './outline/Block.js';
import type { Readings } from './Readings.js';
import { counterUnitJ, readingsOf } from './readingsOf.js';
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
  log: Log | Readings,
  limits: { readonly fromS: number; readonly toS: number },
): CounterEnergy | null {
  const readings = readingsOf(log);
  if (!readings.has.energy || readings.resolution.energyJ === null) return null;
  const blocks = readings.outline.blocks.filter(({ counter }) => counter!.known > 0);
  const startS = blocks[0]?.counter?.firstS ?? 0;
  const endS = blocks[blocks.length - 1]?.counter?.lastS ?? 0;
  const covered = blocks.length > 0 && limits.fromS >= startS && limits.toS <= endS;
  if (!covered || !(limits.fromS < limits.toS))
    throw problem('log-not-covering', { ...limits, startS, endS });
  const unitJ = counterUnitJ(readings.mapping);
  const sums = { energyJ: 0, resets: 0, wraps: 0 };
  for (const block of blocks) {
    const part = block.counter!;
    // Its first step begins at the reading before it.
    const fromS = Number.isNaN(part.beforeS) ? part.firstS : part.beforeS;
    if (part.lastS <= limits.fromS || fromS >= limits.toS) continue;
    if (fromS < limits.fromS || part.lastS > limits.toS || part.falls > 0) {
      addSteps(readings, block, limits, unitJ, sums);
    } else {
      sums.energyJ += part.countedJ;
      sums.resets += part.resets;
      sums.wraps += part.wraps;
    }
  }
  return { ...sums, resolutionJ: readings.resolution.energyJ };
}

/** Adds the steps of a block that reach into the limits. */
function addSteps(
  readings: Readings,
  block: Block,
  limits: { readonly fromS: number; readonly toS: number },
  unitJ: number,
  sums: { energyJ: number; resets: number; wraps: number },
): void {
  const { timesS, energyJ } = readings.rowsOf(block);
  let { beforeS, beforeJ } = block.counter!;
  for (let i = 0; i < timesS.length; i++) {
    const [timeS, joules] = [timesS[i]!, energyJ![i]!];
    if (Number.isNaN(joules)) continue;
    if (!Number.isNaN(beforeJ) && timeS > limits.fromS && beforeS < limits.toS) {
      const step = counterStep(beforeJ, joules, unitJ);
      if (step.kind === 'fall')
        throw problem('log-counter-falls', { fromWh: beforeJ / 3600, toWh: joules / 3600, atS: timeS });
      sums.energyJ += step.addJ;
      if (step.kind === 'wrap') sums.wraps++;
      if (step.kind === 'reset') sums.resets++;
    }
    [beforeS, beforeJ] = [timeS, joules];
  }
}
