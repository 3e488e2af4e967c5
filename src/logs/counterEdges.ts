import { problem } from '../errors/index.js';
import { Tally } from './outline/Tally.js';
import { powerLevels } from './powerLevels.js';
import type { Readings } from './Readings.js';
import type { HeatingEdges } from './types.js';

interface Tick {
  readonly timeS: number;
  readonly energyJ: number;
  /** Time since the tick before. */
  readonly sinceS: number;
}

/**
 * Switch-on and switch-off from an energy counter alone. Between two ticks the mean power is known; the heating
 * began within one tick's time before the first tick of the on level, and ended within one after the last.
 */
export function counterEdges(readings: Readings): HeatingEdges {
  if (!readings.has.energy) throw problem('log-no-power', {});
  const meanW = new Tally();
  eachTick(readings, (tick, before) => {
    if (before) meanW.add(tick.energyJ / tick.sinceS);
  });
  const levels = powerLevels(meanW);
  if (!levels)
    throw problem('log-no-heating', {
      why: 'its energy counter rises by fewer than two steps, or at less than 10 W',
    });
  let opening: Tick | null = null;
  let [openingW, closingW] = [0, 0];
  let closing: Tick | null = null;
  eachTick(readings, (tick, before) => {
    const watts = tick.energyJ / tick.sinceS;
    if (!before || watts < levels.thresholdW) return;
    if (!opening) [opening, openingW] = [before, watts];
    [closing, closingW] = [tick, watts];
  });
  const [first, last] = [opening!, closing!] as [Tick, Tick];
  const earliest = first.timeS - first.energyJ / openingW;
  const latest = last.timeS + last.energyJ / closingW;
  const { endS } = readings.outline;
  const onBracketS = [Math.max(0, earliest), first.timeS] as const;
  const offBracketS = [last.timeS, Math.min(endS, latest)] as const;
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

function eachTick(readings: Readings, visit: (tick: Tick, before: Tick | null) => void): void {
  let value = Number.NaN;
  let tickS = 0;
  let before: Tick | null = null;
  for (const block of readings.outline.blocks) {
    const { timesS, energyJ } = readings.rowsOf(block);
    for (let i = 0; i < timesS.length; i++) {
      const next = energyJ![i]!;
      if (Number.isNaN(next)) continue;
      if (next > value) {
        const tick: Tick = { timeS: timesS[i]!, energyJ: next - value, sinceS: timesS[i]! - tickS };
        visit(tick, before);
        before = tick;
        tickS = timesS[i]!;
      }
      value = next;
    }
  }
}
