import { HeatledgerError } from '../../errors/index.js';
import { onOffEdges } from '../onOffEdges.js';
import type { Readings } from '../Readings.js';
import { readingsOf } from '../readingsOf.js';
import type { HeatingEdges, Log } from '../types.js';
import { AmpRangeWatcher } from './doubts/AmpRangeWatcher.js';
import { ClippingWatcher } from './doubts/ClippingWatcher.js';
import { CounterStandsWatcher } from './doubts/CounterStandsWatcher.js';
import { DeadVoltsWatcher } from './doubts/DeadVoltsWatcher.js';
import { FrozenTemperatureWatcher } from './doubts/FrozenTemperatureWatcher.js';
import { PowerStepWatcher } from './doubts/PowerStepWatcher.js';
import { SpikeWatcher } from './doubts/SpikeWatcher.js';
import { VoltAmpsWatcher } from './doubts/VoltAmpsWatcher.js';
import type { WatchedLog, Watcher } from './doubts/Watcher.js';
import { counterDoubts } from './doubts/counterDoubts.js';
import { counterJumps } from './doubts/counterJumps.js';
import { cycleDoubts } from './doubts/cycleDoubts.js';
import { gapDoubts } from './doubts/gapDoubts.js';
import { intervalDoubts } from './doubts/intervalDoubts.js';
import { type StatedRanges, levelDoubts } from './doubts/levelDoubts.js';
import { stillDoubts } from './doubts/stillDoubts.js';
import { watchRows } from './doubts/watchRows.js';
import { levelsOf } from './levelsOf.js';

/**
 * What in a log gives reason to doubt it, in sentences with times: readings that stand still, spikes, powers that
 * cannot be, power against volts and amps, a range that was reached, a standby that counts, gaps, a counter that
 * runs over, is reset, stands still or contradicts the power, switching too fast for the log, steps of power
 * within the heating, a frozen temperature. A clean log gives none. Of a log beyond 200,000 rows only
 * the rows are looked at again that the summary in blocks makes suspicious. From what on a thing is told is common
 * practice, no source; only counter and power are compared by their standard uncertainties.
 *
 * @example
 * const rows = (spike) => [...Array(30).keys()].map((i) => `${10 * i},${i === 20 ? spike : 900}`).join('\n');
 * const log = (spike) => readExport(new TextEncoder().encode(`t [s],P [W]\n${rows(spike)}\n`));
 * logDoubts(log(901)) // => []
 * logDoubts(log(9000))
 * // => ["A single reading of the power stands out at more than three times the neighbours: 9000 W beside 900 W at 3:20 after the start. It counts in the energy; is it real?"]
 */
export function logDoubts(log: Log | Readings, stated: StatedRanges = {}): string[] {
  const readings = readingsOf(log);
  const edges = edgesOf(readings);
  const levels = readings.has.power ? levelsOf(readings) : null;
  if (!levels) {
    const jumps = edges && !readings.has.power ? counterJumps(readings, edges) : [];
    return [...intervalDoubts(readings), ...counterDoubts(readings, edges), ...jumps];
  }
  const watched: WatchedLog = { readings, levels, edges };
  const clipping = new ClippingWatcher(watched);
  const watchers = [clipping, ...watchersFor(watched, stated)];
  watchRows(readings, watchers);
  return [
    ...gapDoubts(watched),
    ...intervalDoubts(readings),
    ...counterDoubts(readings, edges),
    ...levelDoubts(watched, stated),
    ...stillDoubts(watched, clipping.clippedW()),
    ...cycleDoubts(watched),
    ...watchers.flatMap((watcher) => watcher.doubts()),
  ];
}

function watchersFor(log: WatchedLog, { rangeA }: StatedRanges): Watcher[] {
  const { has, mapping } = log.readings;
  // Power that was made from volts and amps says nothing about them.
  const ownPower = mapping.columns.some(({ role }) => role === 'power');
  return [
    new SpikeWatcher(log),
    new PowerStepWatcher(log),
    new DeadVoltsWatcher(log),
    ...(ownPower ? [new VoltAmpsWatcher(log)] : []),
    ...(has.energy ? [new CounterStandsWatcher(log)] : []),
    ...(has.temperature ? [new FrozenTemperatureWatcher(log)] : []),
    ...(rangeA === undefined ? [] : [new AmpRangeWatcher(log, rangeA)]),
  ];
}

function edgesOf(readings: Readings): HeatingEdges | null {
  if (!readings.has.power && !readings.has.energy) return null;
  try {
    return onOffEdges(readings);
  } catch (error) {
    if (error instanceof HeatledgerError) return null;
    throw error;
  }
}
