import { problem } from '../errors/index.js';
import { counterEdges } from './counterEdges.js';
import type { Block } from './outline/Block.js';
import { powerLevels } from './powerLevels.js';
import type { Readings } from './Readings.js';
import { readingsOf } from './readingsOf.js';
import type { HeatingEdges, Log } from './types.js';

// They are asked for from many sides, and cost a look at the rows.
const known = new WeakMap<Readings, HeatingEdges>();

/**
 * Finds switch-on and switch-off: the first and the last sample at or above the threshold between standby and the
 * on level. Each lies somewhere between two samples (its bracket); the middle is given. Pauses of a thermostat
 * within are part of the heating. An export with an energy counter only is read by the ticks of the counter.
 *
 * Units: seconds after the first sample, watts.
 * Errors: `log-no-heating`; `log-no-power` where there is neither power nor energy.
 *
 * @example
 * const log = readExport(new TextEncoder().encode('t [s],P [W]\n0,1\n10,1\n20,900\n30,900\n40,1\n'));
 * onOffEdges(log).onS // => 15
 * onOffEdges(log).offBracketS // => [30, 40]
 * onOffEdges(log).standbyW // => 1
 */
export function onOffEdges(log: Log | Readings): HeatingEdges {
  const readings = readingsOf(log);
  const before = known.get(readings);
  if (before) return before;
  const edges = readings.has.power ? powerEdges(readings) : counterEdges(readings);
  known.set(readings, edges);
  return edges;
}

function powerEdges(readings: Readings): HeatingEdges {
  const { blocks, powers } = readings.outline;
  const levels = powerLevels(powers);
  if (!levels) throw problem('log-no-heating', { why: whyNone(blocks) });
  const isOn = ({ power }: Block) => power !== null && power.mostW >= levels.thresholdW;
  const opening = around(readings, blocks.findIndex(isOn), levels.thresholdW, 'first');
  const closing = around(readings, blocks.findLastIndex(isOn), levels.thresholdW, 'last');
  const onBracketS = [opening.beforeS ?? opening.timeS, opening.timeS] as const;
  const offBracketS = [closing.timeS, closing.afterS ?? closing.timeS] as const;
  if (!(offBracketS[1] > onBracketS[0])) throw problem('log-no-heating', { why: 'it has only one reading' });
  return {
    onS: (onBracketS[0] + onBracketS[1]) / 2,
    offS: (offBracketS[0] + offBracketS[1]) / 2,
    ...levels,
    onBracketS,
    offBracketS,
    startsOn: opening.beforeS === null,
    endsOn: closing.afterS === null,
  };
}

/** One or two readings alone are no heating; that they are there is said. */
function whyNone(blocks: readonly Block[]): string {
  const mostW = blocks.reduce((most, { power }) => Math.max(most, power?.mostW ?? 0), 0);
  return mostW >= 10
    ? `its power stays below 10 W but for single readings of up to ${Number(mostW.toPrecision(4))} W`
    : 'its power stays below 10 W';
}

/** The first or last reading of a block that is on, and the known readings beside it. */
function around(readings: Readings, at: number, thresholdW: number, which: 'first' | 'last') {
  const { blocks } = readings.outline;
  const block = blocks[at]!;
  const { timesS, powerW } = readings.rowsOf(block);
  const isOn = (watts: number) => watts >= thresholdW;
  const row = which === 'first' ? powerW!.findIndex(isOn) : powerW!.findLastIndex(isOn);
  const known = (watts: number) => !Number.isNaN(watts);
  const before = powerW!.subarray(0, row).findLastIndex(known);
  const after = powerW!.subarray(row + 1).findIndex(known);
  const carried = block.power!.beforeS;
  const next = blocks.slice(at + 1).find(({ power }) => power!.known > 0);
  return {
    timeS: timesS[row]!,
    beforeS: before >= 0 ? timesS[before]! : Number.isNaN(carried) ? null : carried,
    afterS: after >= 0 ? timesS[row + 1 + after]! : (next?.power?.firstS ?? null),
  };
}
