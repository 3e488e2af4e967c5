import { roundToUncertainty } from '../../uncertainty/index.js';
import type { MethodFigure, MethodValue } from './types.js';

/** Rows of a budget below this part of the variance are left out, as in a figure. */
const SHOWN_SHARE = 0.0005;

/**
 * The values of a method in the words of metrology: each with k and its budget, what it takes for granted, and the verdict on
 * the curve of each run.
 *
 * @example
 * const value = { name: 'ua', meaning: 'UA', unit: 'W/K', value: 2.63, standardUncertainty: 0.1, coverageFactor: 2, coverage: 0.95,
 *   degreesOfFreedom: 60, budget: [], conditionalOn: null };
 * const lines = methodDetail({ values: [value], runs: [], covariance: null });
 * lines[0] // => 'UA: 2.63 ± 0.20 W/K (coverage 95 %, k = 2.00, degrees of freedom 60.0)'
 */
export function methodDetail({ values, runs, covariance }: MethodFigure): string[] {
  const lines = values.flatMap(valueLines);
  if (covariance !== null) {
    const [a, b] = [covariance[0]?.[0] ?? 0, covariance[1]?.[1] ?? 0];
    const correlation = (covariance[0]?.[1] ?? 0) / Math.sqrt(a * b);
    lines.push(`correlation of the first two values ${correlation.toFixed(3)}`);
  }
  for (const { run, fit, facts } of runs) {
    const how = typeof facts.how === 'string' ? ` ${facts.how}.` : '';
    if (fit) lines.push(`run ${run.id}:${how} ${fit.verdict.sentence}`);
    else if (how) lines.push(`run ${run.id}:${how}`);
  }
  return lines;
}

function valueLines(each: MethodValue): string[] {
  const half = each.coverageFactor * each.standardUncertainty;
  const rounded = roundToUncertainty(each.value, half);
  const unit = each.unit === '1' ? '' : ` ${each.unit}`;
  const degrees = Number.isFinite(each.degreesOfFreedom) ? each.degreesOfFreedom.toFixed(1) : 'infinite';
  const percent = Number((100 * each.coverage).toPrecision(4));
  return [
    `${each.meaning}: ${rounded.value} ± ${rounded.uncertainty}${unit} (coverage ${percent} %, k = ${each.coverageFactor.toFixed(2)}, degrees of freedom ${degrees})`,
    ...(each.conditionalOn ? [`  takes for granted: ${each.conditionalOn}`] : []),
    ...each.budget
      .filter(({ share }) => share >= SHOWN_SHARE)
      .map(
        ({ source, contribution, share, assumed }) =>
          `  ${contribution.toPrecision(3).padStart(9)}  ${`${(100 * share).toFixed(1)} %`.padStart(7)}  ${source}${assumed ? ' (assumed)' : ''}`,
      ),
  ];
}
