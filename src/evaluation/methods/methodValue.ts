import {
  add,
  constant,
  errorOf,
  propagate,
  type Quantity,
  type SourceBook,
  scale,
} from '../../uncertainty/index.js';
import { budgetOf, ownPart } from '../evaluateFigure.js';
import { poolQuantities } from '../poolQuantities.js';
import type { FigureBudgetRow } from '../types.js';
import type { MethodValue } from './types.js';

/** What a value is called. */
export interface ValueName {
  readonly name: string;
  readonly meaning: string;
  readonly unit: string;
  readonly conditionalOn?: string | null;
}

const coverage = 0.95;

/** One value from one graph. */
export function methodValue(name: ValueName, quantity: Quantity): MethodValue {
  const found = propagate(quantity, { coverage });
  return {
    ...name,
    conditionalOn: name.conditionalOn ?? null,
    value: found.value,
    standardUncertainty: found.standardUncertainty,
    coverage,
    coverageFactor: found.coverageFactor,
    degreesOfFreedom: found.degreesOfFreedom,
    interval: found.interval,
    budget: found.budget.map(
      (row): FigureBudgetRow => ({
        id: row.source.id,
        source: row.source.name,
        scope: row.source.scope,
        sensitivity: row.sensitivity,
        contribution: row.contribution,
        share: row.share,
        assumed: row.source.assumed,
        instrument: row.source.instrument ?? null,
      }),
    ),
    quantity,
  };
}

/**
 * The mean of several runs: what is fresh in each goes through the between-run model, what all share stands beside it, as in
 * a figure. With one or two runs the spread between runs is assumed, never zero.
 */
export function pooledValue(
  name: ValueName,
  quantities: readonly Quantity[],
  spread: { readonly id: string; readonly relative: number; readonly book: SourceBook },
): MethodValue {
  const pooled = poolQuantities(quantities, spread.relative, coverage);
  const { result, shared } = pooled;
  const { u, degreesOfFreedom } = ownPart(pooled);
  const own = spread.book.get({
    id: `${spread.id}:own`,
    name: `${name.meaning}: what is fresh in each run`,
    standardUncertainty: u,
    degreesOfFreedom,
    scope: 'setting',
  });
  return {
    ...name,
    conditionalOn: name.conditionalOn ?? null,
    value: result.mean,
    standardUncertainty: result.standardUncertainty,
    coverage,
    coverageFactor: result.coverageFactor,
    degreesOfFreedom: result.degreesOfFreedom,
    interval: result.interval,
    budget: budgetOf(pooled),
    quantity: add(
      constant(result.mean),
      errorOf(own),
      ...shared.map(({ source, sensitivity }) => scale(errorOf(source), sensitivity)),
    ),
  };
}
