import { problem } from '../errors/index.js';
import { powerLevels } from './powerLevels.js';
import type { HeatingEdges, Log } from './types.js';

interface Tick {
  readonly timeS: number;
  readonly energyJ: number;
  readonly sinceS: number;
}

/**
 * Switch-on and switch-off from an energy counter alone. Between two ticks the mean power is known; the heating
 * began within one tick's time before the first tick of the on level, and ended within one after the last.
 */
export function counterEdges(log: Log): HeatingEdges {
  if (!log.energyJ) throw problem('log-no-power', {});
  const ticks = ticksOf(log.timesS, log.energyJ);
  const meanW = Float64Array.from(ticks.slice(1), (tick) => tick.energyJ / tick.sinceS);
  const levels = powerLevels(meanW);
  if (!levels)
    throw problem('log-no-heating', {
      why: 'its energy counter rises by fewer than two steps, or at less than 10 W',
    });
  const first = meanW.findIndex((value) => value >= levels.thresholdW);
  const last = meanW.findLastIndex((value) => value >= levels.thresholdW) + 1;
  const opening = ticks[first]!;
  const closing = ticks[last]!;
  const earliest = opening.timeS - opening.energyJ / meanW[first]!;
  const latest = closing.timeS + closing.energyJ / meanW[last - 1]!;
  const endS = log.timesS[log.rows - 1]!;
  const onBracketS = [Math.max(0, earliest), opening.timeS] as const;
  const offBracketS = [closing.timeS, Math.min(endS, latest)] as const;
  return {
    onS: (onBracketS[0] + onBracketS[1]) / 2,
    offS: (offBracketS[0] + offBracketS[1]) / 2,
    ...levels,
    onBracketS,
    offBracketS,
    startsOn: earliest <= 0,
    endsOn: latest >= endS,
  };
}

function ticksOf(timesS: Float64Array, energyJ: Float64Array): Tick[] {
  const ticks: Tick[] = [];
  let value = Number.NaN;
  let tickS = timesS[0]!;
  for (let i = 0; i < timesS.length; i++) {
    const next = energyJ[i]!;
    if (Number.isNaN(next)) continue;
    if (next > value) {
      ticks.push({ timeS: timesS[i]!, energyJ: next - value, sinceS: timesS[i]! - tickS });
      tickS = timesS[i]!;
    }
    value = next;
  }
  return ticks;
}
