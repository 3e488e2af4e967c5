import { mean } from '../statistics/index.js';
import { fitPolynomial } from './fitPolynomial.js';
import { autocorrelationInflation, residuals, thirds } from './localParabola.js';

/** How many standard uncertainties count as seen. */
const significant = 3;

/**
 * What a record whose turning point could not be fixed does instead, judged by its outer thirds. It falls from the
 * start only if its first four readings are as high as any others: the scatter of neighbours says how high that is.
 */
export function seenTrend(
  times: readonly number[],
  temperatures: readonly number[],
): 'still rising at the end' | 'falling from the start' | 'no turning point to be seen' {
  const x = times.map((t) => t - times[0]!);
  const fit = fitPolynomial({ x, y: temperatures, degree: 2 });
  const inflation = autocorrelationInflation(residuals(x, temperatures, fit.parameters), 3);
  const unit = inflation * fit.residualStandardDeviation! * Math.sqrt(6 / temperatures.length);
  const [before, , after] = thirds(temperatures);
  if (after - before > significant * unit) return 'still rising at the end';
  if (!(before - after > significant * unit)) return 'no turning point to be seen';
  const fours = temperatures.slice(3).map((_, i) => mean(temperatures.slice(i, i + 4)));
  const highest = fours.reduce((a, b) => Math.max(a, b));
  const scatter = Math.sqrt(mean(temperatures.slice(1).map((t, i) => (t - temperatures[i]!) ** 2)) / 2);
  const asHigh = highest - fours[0]! <= (significant + 1) * scatter * Math.sqrt(2 / 4);
  return asHigh ? 'falling from the start' : 'no turning point to be seen';
}
