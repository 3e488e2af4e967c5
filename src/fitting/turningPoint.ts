import { problem } from '../errors/index.js';
import { checkFinite, checkLengths } from './checkPoints.js';
import { type LocalParabola, localParabola } from './localParabola.js';
import { seenTrend } from './seenTrend.js';

/** A logged temperature. */
export interface TurningPointInput {
  /** Seconds, strictly rising. */
  readonly timesS: readonly number[];
  readonly temperaturesK: readonly number[];
  /** Where to begin looking, usually the switch-off; the first time where left out. */
  readonly fromS?: number;
}

/** The maximum of a logged temperature. All numbers are null unless the verdict is `found`. */
export interface TurningPoint {
  readonly verdict:
    | 'found'
    | 'still rising at the end'
    | 'falling from the start'
    | 'no turning point to be seen'
    | 'too few points';
  /** Less certain than the height: late by up to a fifth of the rise time where the rise is quicker than the fall. */
  readonly timeS: number | null;
  readonly temperatureK: number | null;
  /**
   * Of `temperatureK`, from the scatter of the log only. The thermometer's own sources come on top, its resolution
   * above all where the scatter is smaller than that.
   */
  readonly standardUncertainty: number | null;
  /** First and last time of the points used. */
  readonly windowS: readonly [number, number] | null;
  /** How many points were used. */
  readonly points: number | null;
}

/** Points on each side in the narrowest window: nine in all leave six degrees of freedom. */
const fewestAside = 4;
const growth = 1.25;
/** How much longer one side of a window may be where the record ends on the other. */
const mostLopsided = 2;
/** Below this probability a curve of fourth degree fits the window better than chance allows. */
const lackOfFit = 0.05;

/**
 * Maximum of a noisy, rounded temperature log, in kelvin, free of the upward bias of the highest reading (which is
 * the largest of many errors): the vertex of a parabola fitted to a window about the turning point.
 *
 * The window grows by a quarter at a time, centred on the vertex found before. It stops at the last width at which
 * a polynomial of fourth degree is no significant improvement (F test at 5 %): wider would bend the true curve
 * into the vertex, narrower would waste readings. A window counts only if its middle third lies significantly
 * above both outer thirds. The uncertainty is that of the fitted vertex, inflated by √((1 + ρ)/(1 − ρ)) for
 * residuals with lag-1 autocorrelation ρ. Source: own choice, settled by simulation.
 *
 * @throws `lengths-differ`, `value-not-finite`, `fit-input-bad` unless the times rise strictly
 * @example
 * const timesS = Array.from({ length: 41 }, (_, i) => 10 * i);
 * const temperaturesK = timesS.map((t) => 340 - 1e-5 * (t - 200) ** 2);
 * turningPoint({ timesS, temperaturesK }).temperatureK // => 340.0000
 */
export function turningPoint({ timesS, temperaturesK, fromS }: TurningPointInput): TurningPoint {
  checkLog(timesS, temperaturesK);
  const first = fromS === undefined ? 0 : timesS.findIndex((t) => t >= fromS);
  const times = first < 0 ? [] : timesS.slice(first);
  const temperatures = first < 0 ? [] : temperaturesK.slice(first);
  if (times.length < 2 * fewestAside + 1) return without('too few points');
  const best = widestSoundWindow(times, temperatures);
  if (best === null) return without(seenTrend(times, temperatures));
  return {
    verdict: 'found',
    timeS: best.timeS,
    temperatureK: best.temperatureK,
    standardUncertainty: best.standardUncertainty,
    windowS: [times[best.from]!, times[best.to - 1]!],
    points: best.to - best.from,
  };
}

function without(verdict: TurningPoint['verdict']): TurningPoint {
  return { verdict, timeS: null, temperatureK: null, standardUncertainty: null, windowS: null, points: null };
}

function widestSoundWindow(times: readonly number[], temperatures: readonly number[]): LocalParabola | null {
  let centre = smoothedMaximum(temperatures);
  let best: LocalParabola | null = null;
  for (let aside = fewestAside; aside < times.length; aside = Math.ceil(aside * growth)) {
    let fit: LocalParabola | null = null;
    // Twice: the second time about the vertex that the first one found.
    for (let turn = 0; turn < 2; turn += 1) {
      const from = Math.max(0, centre - aside);
      const to = Math.min(times.length, centre + aside + 1);
      const shorter = Math.min(centre - from, to - 1 - centre);
      if (shorter < Math.max(fewestAside, aside / mostLopsided)) return best;
      fit = localParabola(times, temperatures, from, to);
      if (fit.vertexIndex !== null) centre = fit.vertexIndex;
    }
    if (best !== null && fit!.lackOfFitProbability < lackOfFit) return best;
    if (fit!.turns) best = fit;
  }
  return best;
}

/** Index of the highest running mean, a first guess only. */
function smoothedMaximum(temperatures: readonly number[]): number {
  const aside = Math.min(15, Math.max(1, Math.round(temperatures.length / 40)));
  let best = aside;
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = aside; i + aside < temperatures.length; i += 1) {
    let sum = 0;
    for (let k = i - aside; k <= i + aside; k += 1) sum += temperatures[k]!;
    if (sum > highest) [highest, best] = [sum, i];
  }
  return best;
}

function checkLog(timesS: readonly number[], temperaturesK: readonly number[]): void {
  checkLengths('timesS', timesS, 'temperaturesK', temperaturesK);
  checkFinite('The time of point', timesS);
  checkFinite('The temperature of point', temperaturesK);
  timesS.forEach((t, i) => {
    if (i > 0 && !(t > timesS[i - 1]!))
      throw problem('fit-input-bad', {
        what: `The time of point ${i + 1}`,
        expected: `later than ${timesS[i - 1]} s`,
        got: `${t} s`,
      });
  });
}
