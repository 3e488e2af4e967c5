import type { Readings } from '../Readings.js';

/** Mean of the temperature readings in a piece of time. */
export interface TemperatureMean {
  readonly fromS: number;
  readonly toS: number;
  readonly meanK: number;
  readonly readings: number;
}

const shortestS = 60;
const mostPieces = 400;
const fewestReadings = 3;

/** Width of the pieces: 60 s (common practice, no source), longer for long times and for slow loggers. */
export function meanWidthS(readings: Readings, durationS: number): number {
  const { blocks, endS } = readings.outline;
  const known = blocks.reduce((sum, { temperature }) => sum + (temperature?.known ?? 0), 0);
  const intervalS = known > 1 ? endS / (known - 1) : 0;
  return Math.max(shortestS, durationS / mostPieces, fewestReadings * intervalS);
}

/** Means of the temperature over pieces of equal width. Pieces without a reading are left out. */
export function temperatureMeans(
  readings: Readings,
  { fromS, toS }: { readonly fromS: number; readonly toS: number },
  widthS: number,
): TemperatureMean[] {
  const sums = new Map<number, { sumK: number; readings: number }>();
  // A last piece that is cut short belongs to the one before it.
  const pieces = Math.max(1, Math.floor((toS - fromS) / widthS));
  const pieceOf = (time: number) => Math.min(Math.floor((time - fromS) / widthS), pieces - 1);
  const add = (piece: number, sumK: number, count: number) => {
    const sum = sums.get(piece) ?? { sumK: 0, readings: 0 };
    sum.sumK += sumK;
    sum.readings += count;
    sums.set(piece, sum);
  };
  for (const block of readings.outline.blocks) {
    const part = block.temperature;
    if (!part || part.known === 0 || part.lastS < fromS || part.firstS > toS) continue;
    const piece = pieceOf(part.firstS);
    if (part.firstS >= fromS && part.lastS <= toS && piece === pieceOf(part.lastS)) {
      add(piece, part.sumK, part.known);
      continue;
    }
    const { timesS, temperatureK } = readings.rowsOf(block);
    for (let i = 0; i < timesS.length; i++) {
      const [time, kelvin] = [timesS[i]!, temperatureK![i]!];
      if (time >= fromS && time <= toS && !Number.isNaN(kelvin)) add(pieceOf(time), kelvin, 1);
    }
  }
  return [...sums]
    .sort(([a], [b]) => a - b)
    .map(([piece, sum]) => ({
      fromS: fromS + piece * widthS,
      toS: piece === pieces - 1 ? toS : fromS + (piece + 1) * widthS,
      meanK: sum.sumK / sum.readings,
      readings: sum.readings,
    }));
}

/** Each two neighbours made one. */
export function widerMeans(means: readonly TemperatureMean[]): TemperatureMean[] {
  const wider: TemperatureMean[] = [];
  for (let i = 0; i + 1 < means.length; i += 2) {
    const [a, b] = [means[i]!, means[i + 1]!];
    const readings = a.readings + b.readings;
    const meanK = (a.meanK * a.readings + b.meanK * b.readings) / readings;
    wider.push({ fromS: a.fromS, toS: b.toS, meanK, readings });
  }
  return wider;
}
