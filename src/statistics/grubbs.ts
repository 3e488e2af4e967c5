import { problem } from '../errors/index.js';
import { mean, standardDeviation } from './descriptive.js';
import { type GrubbsSides, grubbsCritical } from './grubbsCritical.js';
import { studentTails } from './studentTails.js';

/** What Grubbs' test says of the value farthest from the mean. */
export interface GrubbsResult {
  readonly n: number;
  readonly sides: GrubbsSides;
  readonly significance: number;
  /** Distance of the suspected value from the mean in sample standard deviations; 0 where all values are the same. */
  readonly statistic: number;
  readonly critical: number;
  /** The p value is no larger than this, and equal to it where two values can't be as far out together. */
  readonly pValueBound: number;
  /** Place of the suspected value, from 0; null where all values are the same. */
  readonly suspectedIndex: number | null;
  /** Whether the statistic exceeds the critical value: a reason to look for a cause, none to leave the value out. */
  readonly outlying: boolean;
}

/**
 * Grubbs' test for one outlier in a normal sample. It only points: leaving a value out takes a person and a reason.
 *
 * Formula: G = max|x − x̄|/s ('two'), (max − x̄)/s ('one-high'), (x̄ − min)/s ('one-low'); p <= n·P(T > t), twice
 * that for 'two', with t² = n(n − 2)G²/((n − 1)² − nG²) and n − 2 degrees of freedom. Source: F. E. Grubbs,
 * Technometrics 11 (1969) 1; NIST/SEMATECH e-Handbook 1.3.5.17.
 *
 * @throws `too-few-values` for fewer than three; `value-not-finite`; `significance-bad`
 * @example
 * const found = grubbs({ values: [0.61, 0.62, 0.6, 0.61, 0.7], sides: 'two', significance: 0.05 });
 * found.statistic // => 1.76187
 * found.suspectedIndex // => 4
 * found.outlying // => true
 */
export function grubbs(input: {
  readonly values: readonly number[];
  readonly sides: GrubbsSides;
  readonly significance: number;
}): GrubbsResult {
  const { values, sides, significance } = input;
  const n = values.length;
  if (n < 3) throw problem('too-few-values', { what: "Grubbs' test", got: n, needed: 3 });
  const spread = standardDeviation(values);
  const critical = grubbsCritical(n, significance, sides);
  const common = { n, sides, significance, critical };
  // All values the same: their mean may be off by rounding, so that the spread alone can't tell.
  if (values.every((x) => x === values[0]))
    return { ...common, statistic: 0, pValueBound: 1, suspectedIndex: null, outlying: false };
  const centre = mean(values);
  const sign = { 'one-high': 1, 'one-low': -1, two: 0 }[sides];
  const distances = values.map((x) => (sign === 0 ? Math.abs(x - centre) : sign * (x - centre)));
  const farthest = Math.max(...distances);
  const statistic = farthest / spread;
  return {
    ...common,
    statistic,
    pValueBound: pValueBound(statistic, n, sides),
    suspectedIndex: distances.indexOf(farthest),
    outlying: statistic > critical,
  };
}

function pValueBound(statistic: number, n: number, sides: GrubbsSides): number {
  const square = statistic * statistic;
  // (n − 1)/√n is the largest distance there can be; rounding may pass it.
  const room = Math.max(0, (n - 1) ** 2 - n * square);
  const t = Math.sqrt((n * (n - 2) * square) / room);
  const tail = t === Number.POSITIVE_INFINITY ? 0 : studentTails(t, n - 2).beyond;
  return Math.min(1, n * tail * (sides === 'two' ? 2 : 1));
}
