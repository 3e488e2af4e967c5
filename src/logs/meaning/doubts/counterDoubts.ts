import { HeatledgerError } from '../../../errors/index.js';
import { counterStep } from '../../counterStep.js';
import type { Readings } from '../../Readings.js';
import { counterUnitJ } from '../../readingsOf.js';
import type { HeatingEdges } from '../../types.js';
import { counterAgainstPower } from '../counterAgainstPower.js';
import { atWords, whWords } from '../words.js';

const kindWords = {
  wrap: 'runs over its last digit',
  reset: 'is set to zero; what it counted just before is lost',
  fall: 'falls, although a counter only rises',
};
const mostListed = 5;
// More is heating (common practice, no source).
const mostStandbyW = 10;

/** A counter that runs over, is reset, falls, or contradicts the integral of the power. */
export function counterDoubts(readings: Readings, edges: HeatingEdges | null): string[] {
  if (!readings.has.energy) return [];
  const falls = fallWords(readings);
  if (!edges || !readings.has.power) return falls;
  try {
    const found = counterAgainstPower(readings, { fromS: edges.onS, toS: edges.offS });
    if (found?.verdict === 'contradict') return [...falls, found.words];
    return [...falls, ...wholeLogDoubts(readings, edges)];
  } catch (error) {
    // A gap or a counter that falls is told elsewhere.
    if (error instanceof HeatledgerError) return falls;
    throw error;
  }
}

/** A counter that goes on where the power shows no heating: the heating itself looks right then. */
function wholeLogDoubts(readings: Readings, { onS, offS }: HeatingEdges): string[] {
  const filled = readings.outline.blocks.filter(({ power }) => power!.known > 0);
  const [fromS, toS] = [filled[0]!.power!.firstS, filled.at(-1)!.power!.lastS];
  // The cycles of the heating were looked at already.
  const found = counterAgainstPower(readings, { fromS, toS, cyclesWithin: { fromS: onS, toS: offS } });
  if (found?.verdict !== 'contradict') return [];
  // Many meters show or count nothing of a small standby.
  if (Math.abs(found.differenceJ) < mostStandbyW * (toS - fromS - (offS - onS))) return [];
  return [`Over the whole log t${found.words.slice(1)}`];
}

function fallWords(readings: Readings): string[] {
  const unitJ = counterUnitJ(readings.mapping);
  const words: string[] = [];
  let more = 0;
  for (const block of readings.outline.blocks) {
    const part = block.counter!;
    const falls = part.wraps + part.resets + part.falls;
    if (falls === 0) continue;
    if (words.length >= mostListed) {
      more += falls;
      continue;
    }
    const { timesS, energyJ } = readings.rowsOf(block);
    let { beforeJ } = part;
    for (let i = 0; i < timesS.length; i++) {
      const joules = energyJ![i]!;
      if (Number.isNaN(joules)) continue;
      const kind = joules < beforeJ ? counterStep(beforeJ, joules, unitJ).kind : 'rise';
      if (kind !== 'rise' && words.length >= mostListed) more++;
      else if (kind !== 'rise')
        words.push(
          `The energy counter ${kindWords[kind]}: from ${whWords(beforeJ, 8)} to ${whWords(joules, 8)} at ${atWords(timesS[i]!)}.`,
        );
      beforeJ = joules;
    }
  }
  return more > 0 ? [...words, `The energy counter falls ${more} times more.`] : words;
}
