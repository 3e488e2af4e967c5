import { type Validation, validate } from '../uncertainty/index.js';
import type { Figure } from './types.js';

/** One seed for all, so that the same workbook gives the same words. */
const SEED = 1;

/**
 * Whether the first-order result of each run stands beside Monte Carlo over the same graph (JCGM 101, clause 8), at one
 * digit. A pooled figure is no graph: its between-run part is a confidence mixture already.
 *
 * About 50 ms a run.
 *
 * @example
 * const figure = { definition: 'water', runs: [] } as unknown as Figure;
 * validationsOf(figure) // => []
 */
export function validationsOf(figure: Figure): { readonly run: string; readonly validation: Validation }[] {
  return figure.runs.flatMap((run) => {
    const quantity = run.quantities[figure.definition];
    // Where nothing is in doubt there is nothing to compare.
    if (quantity === null || run.efficiency[figure.definition]?.standardUncertainty === 0) return [];
    return [{ run: run.run.id, validation: validate(quantity, { seed: SEED, digits: 1 }) }];
  });
}
