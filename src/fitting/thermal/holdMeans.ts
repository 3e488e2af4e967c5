import { problem } from '../../errors/index.js';
import type { PowerSeries, Stretch, TemperatureSeries } from './types.js';

/** Means over a hold. */
export interface HoldMeans {
  readonly powerW: number;
  readonly temperatureK: number;
  readonly ambientK: number;
  readonly driftKPerS: number;
  /** Of the mean power, from cycle to cycle or block to block; null with less than three of them. */
  readonly standardErrorW: number | null;
  readonly degreesOfFreedom: number | null;
  readonly usedS: Stretch;
  readonly cycles: number;
}

const blockS = 300;

/** Means of power, load and room over the whole cycles of a thermostat within a stretch, or over all of it. */
export function holdMeans(
  temperature: TemperatureSeries,
  power: PowerSeries,
  room: TemperatureSeries,
  stretch: Stretch | undefined,
): HoldMeans {
  const last = (times: ArrayLike<number>) => times[times.length - 1]!;
  const fromS = Math.max(
    stretch?.fromS ?? Number.NEGATIVE_INFINITY,
    temperature.timesS[0]!,
    power.timesS[0]!,
  );
  const toS = Math.min(
    stretch?.toS ?? Number.POSITIVE_INFINITY,
    last(temperature.timesS),
    last(power.timesS),
  );
  if (!(toS > fromS))
    throw problem('hold-bad', { got: 'temperature and power have no time in common within the stretch' });
  const rises = risesOf(power, fromS, toS);
  const cycles = Math.max(0, rises.length - 1);
  const marks = cycles >= 2 ? rises : evenMarks(fromS, toS);
  const usedS = { fromS: marks[0]!, toS: marks[marks.length - 1]! };
  const mean = (times: ArrayLike<number>, values: ArrayLike<number>, s: Stretch, step = false) =>
    area(times, values, s, step) / (s.toS - s.fromS);
  const parts = marks
    .slice(1)
    .map((to, i) =>
      mean(power.timesS, power.powerW, { fromS: marks[i]!, toS: to }, power.between === 'step'),
    );
  const quarter = (usedS.toS - usedS.fromS) / 4;
  const early = mean(temperature.timesS, temperature.temperaturesK, { ...usedS, toS: usedS.fromS + quarter });
  const late = mean(temperature.timesS, temperature.temperaturesK, { ...usedS, fromS: usedS.toS - quarter });
  return {
    powerW: mean(power.timesS, power.powerW, usedS, power.between === 'step'),
    temperatureK: mean(temperature.timesS, temperature.temperaturesK, usedS),
    ambientK: mean(room.timesS, room.temperaturesK, usedS),
    driftKPerS: (late - early) / (3 * quarter),
    ...errorOfMean(parts),
    usedS,
    cycles: cycles >= 2 ? cycles : 0,
  };
}

function errorOfMean(parts: readonly number[]): Pick<HoldMeans, 'standardErrorW' | 'degreesOfFreedom'> {
  const n = parts.length;
  if (n < 3) return { standardErrorW: null, degreesOfFreedom: null };
  const mean = parts.reduce((sum, p) => sum + p, 0) / n;
  const squares = parts.reduce((sum, p) => sum + (p - mean) ** 2, 0);
  return { standardErrorW: Math.sqrt(squares / (n - 1) / n), degreesOfFreedom: n - 1 };
}

/** Times at which the power rises through half of its most, from well below. */
function risesOf({ timesS, powerW }: PowerSeries, fromS: number, toS: number): number[] {
  let most = 0;
  for (let i = 0; i < powerW.length; i += 1) most = Math.max(most, powerW[i]!);
  const rises: number[] = [];
  for (let i = 1; i < timesS.length; i += 1)
    if (timesS[i]! >= fromS && timesS[i]! <= toS && powerW[i]! > most / 2 && powerW[i - 1]! <= most / 2)
      rises.push(timesS[i]!);
  return rises;
}

function evenMarks(fromS: number, toS: number): number[] {
  const parts = Math.max(1, Math.floor((toS - fromS) / blockS));
  return Array.from({ length: parts + 1 }, (_, i) => fromS + ((toS - fromS) * i) / parts);
}

/** ∫ of a series over a stretch, held beyond its ends; straight lines between readings, or steps. */
function area(
  times: ArrayLike<number>,
  values: ArrayLike<number>,
  { fromS, toS }: Stretch,
  step: boolean,
): number {
  const last = times.length - 1;
  let sum = Math.max(0, Math.min(toS, times[0]!) - fromS) * values[0]!;
  sum += Math.max(0, toS - Math.max(fromS, times[last]!)) * values[last]!;
  for (let i = 0; i < last; i += 1) {
    const from = Math.max(fromS, times[i]!);
    const to = Math.min(toS, times[i + 1]!);
    if (!(to > from)) continue;
    const slope = step ? 0 : (values[i + 1]! - values[i]!) / (times[i + 1]! - times[i]!);
    sum += (to - from) * (values[i]! + slope * ((from + to) / 2 - times[i]!));
  }
  return sum;
}
