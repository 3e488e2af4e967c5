import { type Conformity, conformity } from '../statistics/index.js';
import type { Figure } from './types.js';

export interface FigureConformity extends Conformity {
  readonly atLeast: number;
  readonly risk: number;
  /** When the rule was settled, seen from the first run. */
  readonly declared: 'before the first run' | 'later';
}

/**
 * Whether a figure reaches a required efficiency, by JCGM 106: probability of conformity, guard band for the stated risk,
 * three-way verdict. A rule that is settled after runs were made is marked so: whoever has seen the result can choose
 * the rule that suits it.
 *
 * `declaredOn` is a day (2026-10-01) or null for a rule stated just now.
 *
 * @example
 * const efficiency = { value: 0.6, standardUncertainty: 0.01, degreesOfFreedom: Infinity };
 * const figure = { efficiency, runs: [{ run: { startedAt: '2026-10-05T08:00:00Z' } }] };
 * conformityOfFigure(figure, 0.55, 0.05, '2026-10-01').declared // => 'before the first run'
 * conformityOfFigure(figure, 0.55, 0.05, null).declared // => 'later'
 */
export function conformityOfFigure(
  figure: Figure,
  atLeast: number,
  risk: number,
  declaredOn: string | null,
): FigureConformity {
  const { value, standardUncertainty, degreesOfFreedom } = figure.efficiency;
  const judged = conformity({
    value,
    standardUncertainty,
    degreesOfFreedom,
    lower: atLeast,
    limitRule: { consumerRisk: risk },
  });
  const first = figure.runs.map((run) => run.run.startedAt).sort()[0] ?? '';
  // The rule counts as earlier only from the day before: a day has no hour.
  const before = declaredOn !== null && declaredOn < first.slice(0, 10);
  return { ...judged, atLeast, risk, declared: before ? 'before the first run' : 'later' };
}
