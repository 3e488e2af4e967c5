import { chiSquaredCdf, normalCdf } from '../../statistics/index.js';
import type { ResidualTest } from './types.js';

/**
 * Tests of what a fit left, on residuals freed of their autocorrelation, for structure that noise doesn't have: too few
 * runs of one sign (A. Wald, J. Wolfowitz, 1940), Durbin and Watson's ratio with its large-sample normal
 * approximation, Ljung and Box's sum (1978), and the largest one.
 */
export function testResiduals(whitened: readonly number[], degreesOfFreedom: number): ResidualTest[] {
  return [
    runsTest(whitened),
    durbinWatson(whitened),
    ljungBox(whitened),
    largest(whitened, degreesOfFreedom),
  ];
}

/** Number of runs of one sign; the chance of as few. */
export function runsTest(values: readonly number[]): ResidualTest {
  const signs = values.filter((value) => value !== 0).map((value) => value > 0);
  const plus = signs.filter(Boolean).length;
  const minus = signs.length - plus;
  const runs = signs.reduce((count, sign, i) => count + (i === 0 || sign !== signs[i - 1] ? 1 : 0), 0);
  const n = plus + minus;
  const product = 2 * plus * minus;
  const mean = 1 + product / n;
  const variance = (product * (product - n)) / (n * n * (n - 1));
  const probability = variance > 0 ? normalCdf((runs + 0.5 - mean) / Math.sqrt(variance)) : null;
  return { name: 'runs', statistic: runs, probability };
}

/** Σ(eₜ − eₜ₋₁)²/Σeₜ², near 2 for noise; the chance of as small a value, by var = 4(n − 2)/((n − 1)(n + 1)). */
export function durbinWatson(values: readonly number[]): ResidualTest {
  const n = values.length;
  const squares = values.reduce((sum, e) => sum + e * e, 0);
  const steps = values.reduce((sum, e, i) => (i === 0 ? 0 : sum + (e - values[i - 1]!) ** 2), 0);
  if (!(squares > 0)) return { name: 'Durbin-Watson', statistic: 2, probability: null };
  const statistic = steps / squares;
  const deviation = Math.sqrt((4 * (n - 2)) / ((n - 1) * (n + 1)));
  return { name: 'Durbin-Watson', statistic, probability: normalCdf((statistic - 2) / deviation) };
}

/** n(n + 2)·Σ rₖ²/(n − k) over up to ten lags; chi-squared with one degree of freedom less, for ρ was estimated. */
export function ljungBox(values: readonly number[]): ResidualTest {
  const n = values.length;
  const lags = Math.min(10, Math.floor(n / 5));
  const squares = values.reduce((sum, e) => sum + e * e, 0);
  if (lags < 2 || !(squares > 0)) return { name: 'Ljung-Box', statistic: 0, probability: null };
  let statistic = 0;
  for (let lag = 1; lag <= lags; lag += 1) {
    let products = 0;
    for (let i = lag; i < n; i += 1) products += values[i]! * values[i - lag]!;
    statistic += (n * (n + 2) * (products / squares) ** 2) / (n - lag);
  }
  return { name: 'Ljung-Box', statistic, probability: 1 - chiSquaredCdf(statistic, lags - 1) };
}

/** The largest size among them; the chance of one as large among as many normal ones. */
function largest(values: readonly number[], degreesOfFreedom: number): ResidualTest {
  const statistic = values.reduce((most, e) => Math.max(most, Math.abs(e)), 0);
  if (degreesOfFreedom < 5) return { name: 'largest', statistic, probability: null };
  const one = 2 * (1 - normalCdf(statistic));
  return { name: 'largest', statistic, probability: -Math.expm1(values.length * Math.log1p(-one)) };
}
