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
