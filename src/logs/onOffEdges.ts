import { problem } from '../errors/index.js';
import { counterEdges } from './counterEdges.js';
import { powerLevels } from './powerLevels.js';
import type { HeatingEdges, Log } from './types.js';

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
export function onOffEdges(log: Log): HeatingEdges {
  if (!log.powerW) return counterEdges(log);
  const { timesS, powerW } = log;
  const levels = powerLevels(powerW);
  if (!levels) throw problem('log-no-heating', { why: 'its power stays below 10 W' });
  const isOn = (value: number) => value >= levels.thresholdW;
  const first = powerW.findIndex(isOn);
  const last = powerW.findLastIndex(isOn);
  const before = previousKnown(powerW, first);
  const after = nextKnown(powerW, last);
  const onBracketS = [timesS[before ?? first]!, timesS[first]!] as const;
  const offBracketS = [timesS[last]!, timesS[after ?? last]!] as const;
  if (!(offBracketS[1] > onBracketS[0])) throw problem('log-no-heating', { why: 'it has only one reading' });
  return {
    onS: (onBracketS[0] + onBracketS[1]) / 2,
    offS: (offBracketS[0] + offBracketS[1]) / 2,
    ...levels,
    onBracketS,
    offBracketS,
    startsOn: before === null,
    endsOn: after === null,
  };
}

function previousKnown(values: Float64Array, index: number): number | null {
  for (let i = index - 1; i >= 0; i--) if (!Number.isNaN(values[i]!)) return i;
  return null;
}

function nextKnown(values: Float64Array, index: number): number | null {
  for (let i = index + 1; i < values.length; i++) if (!Number.isNaN(values[i]!)) return i;
  return null;
}
