import { mean, studentQuantile } from '../statistics/index.js';
import type { FitResult } from './FitResult.js';
import { fitPolynomial } from './fitPolynomial.js';

/** A parabola fitted to the points from index `from` up to before `to`. */
export interface LocalParabola {
  readonly from: number;
  readonly to: number;
  readonly timeS: number;
  readonly temperatureK: number;
  readonly standardUncertainty: number;
  /** Index of the point nearest to the vertex; null where the parabola opens upward or peaks outside the window. */
  readonly vertexIndex: number | null;
  /** Whether there is a vertex in the window and the outer thirds lie significantly below the middle one. */
  readonly turns: boolean;
  /** Probability of an improvement at least as large by chance when a fourth-degree polynomial is fitted instead. */
  readonly lackOfFitProbability: number;
}

/** Chance of taking noise for a fall on one side of one window; small, because several windows are tried. */
const oneSidedChance = 0.001;

const nothing = {
  timeS: Number.NaN,
  temperatureK: Number.NaN,
  standardUncertainty: Number.NaN,
  vertexIndex: null,
  turns: false,
  lackOfFitProbability: 1,
};

/** Fits a parabola to points[from, to) and tests it. */
export function localParabola(
  times: readonly number[],
  temperatures: readonly number[],
  from: number,
  to: number,
): LocalParabola {
  const origin = times[from + Math.floor((to - from) / 2)]!;
  const x = times.slice(from, to).map((t) => t - origin);
  const y = temperatures.slice(from, to);
  const fit = fitPolynomial({ x, y, degree: 2 });
  const wider = fitPolynomial({ x, y, degree: 4 });
  // Times so crowded that the powers cannot be told apart give no parabola.
  if (!(fit.converged && wider.converged)) return { ...nothing, from, to };
  const [b0, b1, b2] = fit.parameters as [number, number, number];
  const inflation = autocorrelationInflation(residuals(x, y, fit.parameters), 3);
  const vertex = -b1 / (2 * b2);
  const inside = b2 < 0 && vertex >= x[0]! && vertex <= x[x.length - 1]!;
  const [before, middle, after] = thirds(y);
  const widerInflation = autocorrelationInflation(residuals(x, y, wider.parameters), 5);
  // The scatter about the more flexible curve: a misfit of the parabola is no noise.
  const unit = widerInflation * wider.residualStandardDeviation! * Math.sqrt(6 / y.length);
  const seen =
    unit * studentQuantile(1 - oneSidedChance, Math.max(1, wider.degreesOfFreedom / widerInflation ** 2));
  return {
    from,
    to,
    timeS: origin + vertex,
    temperatureK: b0 + b1 * vertex + b2 * vertex * vertex,
    standardUncertainty: inflation * heightUncertainty(fit.covariance!, vertex),
    vertexIndex: inside ? from + nearest(x, vertex) : null,
    turns: inside && middle - before > seen && middle - after > seen,
    lackOfFitProbability: improvementByChance(
      fit.residualSumOfSquares,
      wider.residualSumOfSquares,
      wider.degreesOfFreedom,
      widerInflation ** 2,
    ),
  };
}

/** Of b0 + b1·x + b2·x² at the vertex; its slope is zero there, so the error of the place does not count. */
function heightUncertainty(covariance: NonNullable<FitResult['covariance']>, x: number): number {
  const powers = [1, x, x * x];
  const variance = covariance.reduce(
    (sum, row, i) => sum + powers[i]! * row.reduce((inner, c, j) => inner + c * powers[j]!, 0),
    0,
  );
  return Math.sqrt(Math.max(0, variance));
}

/** F test with two degrees of freedom above the line, whose probability is (1 + 2F/ν)^(−ν/2) in closed form. */
function improvementByChance(
  rss: number,
  smallerRss: number,
  degreesOfFreedom: number,
  inflation: number,
): number {
  if (smallerRss <= 0) return rss > 0 ? 0 : 1;
  const effective = Math.max(2, degreesOfFreedom / inflation);
  const f = (rss - smallerRss) / 2 / (smallerRss / degreesOfFreedom) / inflation;
  return (1 + (2 * f) / effective) ** (-effective / 2);
}

/**
 * √((1 + ρ)/(1 − ρ)) with ρ the lag-1 autocorrelation of the residuals, corrected for its bias after fitting p
 * parameters, r + [1 + 3r + (p − 1)(1 + r)]/N; never below 1.
 */
export function autocorrelationInflation(rest: readonly number[], p: number): number {
  const n = rest.length;
  const squares = rest.reduce((sum, e) => sum + e * e, 0);
  if (squares === 0) return 1;
  const r = rest.slice(1).reduce((sum, e, i) => sum + e * rest[i]!, 0) / squares;
  const rho = Math.min(0.995, Math.max(0, r + (1 + 3 * r + (p - 1) * (1 + r)) / n));
  return Math.sqrt((1 + rho) / (1 - rho));
}

export function residuals(
  x: readonly number[],
  y: readonly number[],
  parameters: readonly number[],
): number[] {
  return y.map((value, i) => value - parameters.reduceRight((sum, b) => sum * x[i]! + b, 0));
}

export function thirds(y: readonly number[]): [number, number, number] {
  const third = Math.floor(y.length / 3);
  return [mean(y.slice(0, third)), mean(y.slice(third, y.length - third)), mean(y.slice(y.length - third))];
}

function nearest(x: readonly number[], target: number): number {
  return x.reduce((best, value, i) => (Math.abs(value - target) < Math.abs(x[best]! - target) ? i : best), 0);
}
