import { problem } from '../../errors/index.js';
import { checkSeries } from './checkSeries.js';
import { type PeriodCurve, periodCurve } from './periodCurve.js';
import { coldestK } from './prepareData.js';
import type { FittedQuantity, Stretch, TemperatureSeries } from './types.js';

/** A logged temperature with the quiet periods before and after the heating. */
export interface LossCorrectionInput {
  readonly temperature: TemperatureSeries;
  /** In the times of the series. */
  readonly forePeriod: Stretch;
  readonly afterPeriod: Stretch;
  /** Switch-off and the time by which the load follows the heater: the after-period must begin five of these later. */
  readonly switchOffS?: number;
  readonly lagS?: number;
}

/** The rise as it would have been without loss to the room. */
export interface LossCorrection {
  /** k = UA/C, 1/s. */
  readonly coolingRate: FittedQuantity;
  /** T∞, the temperature at which nothing is lost, K. */
  readonly convergence: FittedQuantity;
  /** T2 − T1, from the end of the fore-period to the beginning of the after-period, K. */
  readonly plainRise: FittedQuantity;
  readonly correctedRise: FittedQuantity;
  /** Corrected over plain rise. */
  readonly factor: number;
  /** Of the uncertainties, which are those of the scatter: take Student's t with them. */
  readonly degreesOfFreedom: number;
}

/** Time constants after which the heater body has given off its heat. */
const lagsToWait = 5;

/**
 * Loss correction of classical calorimetry after Regnault and Pfaundler: with drifts g_f, g_a and temperatures T_f,
 * T_a in the middle of the periods before and after, k = (g_f − g_a)/(T_a − T_f), T∞ = T_f + g_f/k, and
 * ΔT_corr = T2 − T1 + k·∫(T − T∞) dt between them. The drifts are those of parabolas through block means, by generalised least
 * squares; T1 and T2 are their ends. An offset of the thermometer cancels in k and in the rise; its gain does not. Kelvin, seconds.
 *
 * @throws `periods-bad` where they are out of order, too short, too alike, or the after-period begins too early
 * @example
 * const timesS = Array.from({ length: 241 }, (_, i) => 20 * i);
 * const heated = (t) => 0.02 * Math.min(Math.max(t - 1200, 0), 1200);
 * let T = 290;
 * const temperaturesK = timesS.map((t, i) => (i ? (T += heated(t) - heated(t - 20) - 20 * 1e-4 * (T - 288)) : T));
 * const periods = { forePeriod: { fromS: 0, toS: 1200 }, afterPeriod: { fromS: 2400, toS: 4800 } };
 * regnaultPfaundler({ temperature: { timesS, temperaturesK }, ...periods }).correctedRise.value // => 24.0
 */
export function regnaultPfaundler(input: LossCorrectionInput): LossCorrection {
  const { temperature, forePeriod, afterPeriod } = input;
  checkSeries('temperature', temperature.timesS, temperature.temperaturesK, coldestK, 'K');
  checkPeriods(input);
  const fore = periodCurve(temperature, forePeriod, 'before');
  const after = periodCurve(temperature, afterPeriod, 'after');
  const area = integral(temperature, forePeriod.toS, afterPeriod.fromS);
  const lengthS = afterPeriod.fromS - forePeriod.toS;
  const toStart = forePeriod.toS - fore.middleS;
  const toEnd = afterPeriod.fromS - after.middleS;
  const at = [...fore.parameters, ...after.parameters];
  const results = (p: readonly number[]) => {
    const [tf, gf, bf, ta, ga, ba] = p as [number, number, number, number, number, number];
    const k = (gf - ga) / (ta - tf);
    const infinity = tf + gf / k;
    const start = tf + gf * toStart + bf * toStart ** 2;
    const end = ta + ga * toEnd + ba * toEnd ** 2;
    return [k, infinity, end - start, end - start + k * (area - lengthS * infinity)];
  };
  const values = results(at);
  const u = values.map((_, i) => uncertainty((p) => results(p)[i]!, at, [fore, after]));
  const quantity = (i: number, name: string, meaning: string, unit: string): FittedQuantity => {
    const known = Number.isFinite(values[i]!);
    const reason = known ? null : 'the drift before and after the heating is the same';
    return {
      name,
      meaning,
      unit,
      value: known ? values[i]! : null,
      standardUncertainty: known ? u[i]! : null,
      reason,
      conditionalOn: null,
    };
  };
  return {
    coolingRate: quantity(0, 'coolingRate', 'k = UA/C', '1/s'),
    convergence: quantity(1, 'convergence', 'T∞, where nothing is lost', 'K'),
    plainRise: quantity(2, 'plainRise', 'T2 − T1', 'K'),
    correctedRise: quantity(3, 'correctedRise', 'T2 − T1 + k·∫(T − T∞) dt', 'K'),
    factor: values[3]! / values[2]!,
    degreesOfFreedom: Math.min(fore.degreesOfFreedom, after.degreesOfFreedom),
  };
}

function checkPeriods({ forePeriod, afterPeriod, switchOffS, lagS }: LossCorrectionInput): void {
  const order = [forePeriod.fromS, forePeriod.toS, afterPeriod.fromS, afterPeriod.toS];
  if (!order.every((t, i) => Number.isFinite(t) && (i === 0 || t > order[i - 1]!)))
    throw problem('periods-bad', {
      got: `they go from ${order[0]} to ${order[1]} s and from ${order[2]} to ${order[3]} s`,
      expected: 'A period before, the heating, and a period after it',
    });
  if (switchOffS === undefined || lagS === undefined) return;
  const earliest = switchOffS + lagsToWait * lagS;
  if (!(afterPeriod.fromS >= earliest))
    throw problem('periods-bad', {
      got: `the period after begins at ${afterPeriod.fromS} s, while the heater body still gives off heat`,
      expected: `A beginning at ${Math.ceil(earliest)} s or later, five times the lag after switch-off,`,
    });
}

/** ∫T dt by the trapezoidal rule, straight lines between readings. */
function integral({ timesS, temperaturesK }: TemperatureSeries, fromS: number, toS: number): number {
  let sum = 0;
  for (let i = 1; i < timesS.length; i += 1) {
    const [t0, t1] = [timesS[i - 1]!, timesS[i]!];
    const from = Math.max(fromS, t0);
    const to = Math.min(toS, t1);
    if (!(to > from)) continue;
    const slope = (temperaturesK[i]! - temperaturesK[i - 1]!) / (t1 - t0);
    sum += (to - from) * (temperaturesK[i - 1]! + slope * ((from + to) / 2 - t0));
  }
  return sum;
}

/** From the covariance of each period's curve, by central differences of a smooth function. */
function uncertainty(
  f: (p: readonly number[]) => number,
  at: readonly number[],
  curves: readonly PeriodCurve[],
): number {
  const u = curves.flatMap(({ covariance }) => covariance.map((row, j) => Math.sqrt(row[j]!)));
  const slopes = at.map((value, j) => {
    const h = u[j]! > 0 ? u[j]! / 100 : Math.abs(value) * 1e-6 || 1e-12;
    const moved = (by: number) => f(at.map((each, i) => (i === j ? each + by : each)));
    return (moved(h) - moved(-h)) / (2 * h);
  });
  const variance = curves.reduce((total, { covariance }, curve) => {
    const own = slopes.slice(3 * curve, 3 * curve + 3);
    return (
      total +
      own.reduce((sum, a, i) => sum + own.reduce((row, b, j) => row + a * b * covariance[i]![j]!, 0), 0)
    );
  }, 0);
  return Math.sqrt(Math.max(0, variance));
}
