import { counterStep } from '../counterStep.js';
import type { Readings } from '../Readings.js';
import { counterUnitJ } from '../readingsOf.js';
import { stretchesFromS } from '../stretchesIn.js';

/** The stretch of a log in which integral and counter part most. */
export interface Parting {
  readonly fromS: number;
  readonly toS: number;
  /** Integral less counter over the stretch. */
  readonly differenceJ: number;
}

const fewRows = 200_000;

/**
 * The stretch over which integral and counter part: the contiguous run of intervals with the largest sum (Kadane's
 * algorithm) of what they part by, less half of the mean rate, so that the rounding of the counter doesn't lengthen
 * it. Row by row, or block by block in a long log. `differenceJ` is that of the whole.
 */
export function whereTheyPart(
  readings: Readings,
  limits: { readonly fromS: number; readonly toS: number },
  differenceJ: number,
): Parting | null {
  const sign = Math.sign(differenceJ);
  const usualW = Math.abs(differenceJ) / (limits.toS - limits.fromS) / 2;
  const best = { fromS: 0, toS: 0, sum: 0, differenceJ: 0 };
  let [startS, sum, partedJ] = [Number.NaN, 0, 0];
  const add = (part: Parting) => {
    if (sum <= 0) [startS, sum, partedJ] = [part.fromS, 0, 0];
    sum += sign * part.differenceJ - usualW * (part.toS - part.fromS);
    partedJ += part.differenceJ;
    if (sum > best.sum) Object.assign(best, { fromS: startS, toS: part.toS, sum, differenceJ: partedJ });
  };
  if (readings.rows <= fewRows) eachReading(readings, limits, add);
  else eachBlock(readings, limits, add);
  return best.sum > 0 ? { fromS: best.fromS, toS: best.toS, differenceJ: best.differenceJ } : null;
}

function eachBlock(
  { outline }: Readings,
  limits: { readonly fromS: number; readonly toS: number },
  add: (part: Parting) => void,
): void {
  for (const block of outline.blocks) {
    const [fromS, toS] = [stretchesFromS(block), block.power!.lastS];
    if (!(fromS >= limits.fromS && toS <= limits.toS) || block.counter!.known === 0) continue;
    add({ fromS, toS, differenceJ: block.power!.trapezoidJ - block.counter!.countedJ });
  }
}

function eachReading(
  readings: Readings,
  limits: { readonly fromS: number; readonly toS: number },
  add: (part: Parting) => void,
): void {
  const unitJ = counterUnitJ(readings.mapping);
  let [fromS, counterJ, powerS, powerW, passedJ] = [Number.NaN, Number.NaN, Number.NaN, 0, 0];
  for (const block of readings.outline.blocks) {
    if (block.endS < limits.fromS || block.startS > limits.toS) continue;
    const { timesS, powerW: watts, energyJ } = readings.rowsOf(block);
    for (let i = 0; i < timesS.length; i++) {
      const [toS, nextW, nextJ] = [timesS[i]!, watts![i]!, energyJ![i]!];
      if (toS < limits.fromS || toS > limits.toS || Number.isNaN(nextW)) continue;
      if (!Number.isNaN(powerS)) passedJ += ((powerW + nextW) / 2) * (toS - powerS);
      [powerS, powerW] = [toS, nextW];
      if (Number.isNaN(nextJ)) continue;
      if (!Number.isNaN(counterJ))
        add({ fromS, toS, differenceJ: passedJ - counterStep(counterJ, nextJ, unitJ).addJ });
      [fromS, counterJ, passedJ] = [toS, nextJ, 0];
    }
  }
}
