import { propagate, propagateTogether, type Quantity } from '../../uncertainty/index.js';
import { poolQuantities } from '../poolQuantities.js';
import type { Figure, RunEvaluation } from '../types.js';
import { fromWords, meanQuantity, transferOfRuns } from './transferOfRuns.js';
import type { FigureTransfer, KnownTransfer } from './types.js';

/** What a figure carries beside its efficiency: UA, κ with their covariance and range, and its mean without room loss. */
export function whatCurvesKnow(
  runs: readonly RunEvaluation[],
  given: KnownTransfer | null,
  { relativeSpread, coverage }: { readonly relativeSpread: number; readonly coverage: number },
): Required<Pick<Figure, 'losses' | 'transfer' | 'lossFree'>> {
  const used = runs.flatMap(({ loss }) => (loss?.heater ? [loss] : []));
  const known = given ?? transferOfRuns(runs);
  const free = runs.map((run) => run.lossFree?.quantity ?? null).filter((quantity) => quantity !== null);
  const pooled =
    free.length > 0 && free.length === runs.length
      ? poolQuantities(free, relativeSpread, coverage).result
      : null;
  return {
    losses:
      used.length === 0
        ? null
        : {
            uaWPerK: propagate(meanQuantity(used.map(({ quantity }) => quantity)), { coverage }),
            from: fromWords(used),
          },
    transfer: known === null ? null : figureTransfer(known, coverage),
    lossFree: pooled === null ? null : { value: pooled.mean, interval: pooled.interval },
  };
}

function figureTransfer(known: KnownTransfer, coverage: number): FigureTransfer {
  const { kappa, ua, bodyHeatCapacityJPerK: body } = known;
  const all: Quantity[] = [kappa, ...ua.map(({ uaWPerK }) => uaWPerK), ...(body ? [body] : [])];
  const { results, covariance } = propagateTogether(all, { coverage });
  return {
    kappa: results[0]!,
    ua: ua.map(({ waterKg }, i) => ({ waterKg, uaWPerK: results[i + 1]! })),
    bodyHeatCapacityJPerK: body ? results.at(-1)! : null,
    covariance,
    range: known.range,
    from: known.from,
    known,
  };
}
