import { add, type Quantity, scale } from '../../uncertainty/index.js';
import type { RunEvaluation } from '../types.js';
import { testedRange } from './testedRange.js';
import type { BalanceHeater, KnownTransfer, RunLoss } from './types.js';

type Separated = RunLoss & { readonly heater: BalanceHeater };

/** Mean of quantities; what they share stays shared. */
export function meanQuantity(quantities: readonly Quantity[]): Quantity {
  return scale(add(...quantities), 1 / quantities.length);
}

/** Names that end a sentence, each once. */
export function fromWords(losses: readonly { readonly from: string }[]): string {
  return [...new Set(losses.map(({ from }) => from))].join(' and ');
}

/**
 * What the heat balances of a figure's runs tell of the heater where their room is separated: κ, and from one fill only, so
 * that another mass takes the heat capacity of the heater body. Null unless every run has it.
 */
export function transferOfRuns(runs: readonly RunEvaluation[]): KnownTransfer | null {
  const losses = runs.map(({ loss }) => loss).filter((loss): loss is Separated => loss?.heater != null);
  if (losses.length === 0 || losses.length < runs.length) return null;
  const heaters = losses.map(({ heater }) => heater);
  const mean = (of: (heater: BalanceHeater) => Quantity) => meanQuantity(heaters.map(of));
  const bodies = heaters.map((heater) => heater.bodyHeatCapacityJPerK).filter((body) => body !== null);
  const vessel = mean((heater) => heater.vesselHeatCapacityJPerK);
  const range = testedRange(runs);
  const waterKg = runs.reduce((sum, { conditions }) => sum + conditions.waterKg, 0) / runs.length;
  return {
    kappa: mean((heater) => heater.kappa),
    bodyHeatCapacityJPerK: bodies.length === heaters.length ? meanQuantity(bodies) : null,
    vesselHeatCapacityJPerK: vessel,
    ua: [{ waterKg, uaWPerK: meanQuantity(losses.map(({ quantity }) => quantity)) }],
    fittedHeatCapacityJPerK: add(
      mean((heater) => heater.loadHeatCapacityJPerK),
      vessel,
    ),
    kappaByBody: mean((heater) => heater.kappaByBody),
    range,
    from: `the heat balances of its runs, with the loss to the room from ${fromWords(losses)}`,
  };
}
