import type { Readings } from '../../Readings.js';
import type { HeatingEdges } from '../../types.js';
import { atWords, digits, whWords } from '../words.js';
import { rangeWords } from './rangeWords.js';

const timesUsual = 3;
const fewestSteps = 5;

/**
 * Where a counter is all there is: a rise between two readings for which the heater would have needed more than three
 * times its power, and a power that no socket gives (common practice, no source).
 */
export function counterJumps(readings: Readings, { onW, thresholdW }: HeatingEdges): string[] {
  const stepJ = readings.resolution.energyJ ?? 0;
  const jumps: { atS: number; rose: number; watts: number }[] = [];
  let [beforeS, beforeJ, tickS, rises, roseS] = [Number.NaN, Number.NaN, Number.NaN, 0, 0];
  for (const block of readings.outline.blocks) {
    const { timesS, energyJ } = readings.rowsOf(block);
    for (let i = 0; i < timesS.length; i++) {
      const [timeS, joules] = [timesS[i]!, energyJ![i]!];
      if (Number.isNaN(joules)) continue;
      const rose = joules - beforeJ;
      const watts = (rose - stepJ) / (timeS - beforeS);
      if (rose > fewestSteps * stepJ && watts > timesUsual * onW) jumps.push({ atS: timeS, rose, watts });
      if (rose > 0) {
        if (rose / (timeS - tickS) >= thresholdW) [rises, roseS] = [rises + 1, timeS];
        tickS = timeS;
      }
      [beforeS, beforeJ] = [timeS, joules];
    }
  }
  const range = rangeWords(onW);
  const [first] = jumps;
  const more = jumps.length > 1 ? `, and ${jumps.length - 1} times more` : '';
  return [
    ...(range ? [range] : []),
    ...(rises === 1
      ? [
          `The whole heating is one rise of the energy counter, at ${atWords(roseS)}: too short for this log, or no heating at all.`,
        ]
      : []),
    ...(first && rises !== 1
      ? [
          `The energy counter jumps by ${whWords(first.rose)} at ${atWords(first.atS)}${more}, for which ${digits(first.watts / onW, 2)} times the power of the heating would be needed. It counts in the energy; is it real?`,
        ]
      : []),
  ];
}
