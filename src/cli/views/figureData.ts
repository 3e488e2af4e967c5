import type { Figure, RunEvaluation } from '../../evaluation/index.js';
import type { Propagated } from '../../uncertainty/index.js';

/** JSON has no infinity: null stands for infinitely many degrees of freedom. */
const degrees = (value: number): number | null => (Number.isFinite(value) ? value : null);

const numbers = (result: Propagated) => ({
  value: result.value,
  standardUncertainty: result.standardUncertainty,
  interval: result.interval,
});

/** A figure as `result --json` prints it. Ratios, not per cent; SI units, temperatures in kelvin. */
export function figureData(figure: Figure): Record<string, unknown> {
  const { efficiency } = figure;
  return {
    heater: figure.heater.id,
    setting: figure.setting,
    protocol: figure.protocol.name,
    definition: figure.definition,
    efficiency: { ...efficiency, degreesOfFreedom: degrees(efficiency.degreesOfFreedom) },
    prediction: figure.prediction,
    spread: figure.spread,
    mark: figure.mark,
    withExcluded: figure.withExcluded,
    budget: figure.budget,
    definitions: figure.definitions,
    ...curveData(figure),
    runs: figure.runs.map(runData),
    warnings: figure.warnings,
  };
}

/** What carries the figure to another heating; null where it isn't known. */
function curveData({ losses, transfer, lossFree }: Figure): Record<string, unknown> {
  return {
    lossFree: lossFree ?? null,
    losses: losses ? { uaWPerK: numbers(losses.uaWPerK), from: losses.from } : null,
    transfer: transfer
      ? {
          kappa: numbers(transfer.kappa),
          bodyHeatCapacityJPerK: transfer.bodyHeatCapacityJPerK && numbers(transfer.bodyHeatCapacityJPerK),
          ua: transfer.ua.map(({ waterKg, uaWPerK }) => ({ waterKg, uaWPerK: numbers(uaWPerK) })),
          covariance: transfer.covariance,
          range: transfer.range,
          from: transfer.from,
        }
      : null,
  };
}

function runData(run: RunEvaluation): unknown {
  const { typed, logged, counter, used, difference } = run.energy;
  return {
    run: run.run.id,
    efficiency: Object.fromEntries(
      Object.entries(run.efficiency).map(([name, result]) => [
        name,
        result === null ? null : numbers(result),
      ]),
    ),
    balance: run.balance.map(({ name, heat, share }) => ({
      name,
      heatJ: numbers(heat),
      share: numbers(share),
    })),
    energyJ: {
      used,
      typed: numbers(typed.energy),
      logged: logged && numbers(logged.energy),
      counter: counter && numbers(counter.energy),
      difference: difference && numbers(difference),
    },
    ...lossData(run),
    conditions: run.conditions,
    warnings: run.warnings,
  };
}

function lossData({ loss, lossFree }: RunEvaluation): Record<string, unknown> {
  return {
    loss: loss
      ? {
          uaWPerK: numbers(loss.uaWPerK),
          from: loss.from,
          fromThisRun: loss.fromThisRun,
          course: loss.course,
          why: loss.why,
        }
      : null,
    lossFree: lossFree
      ? { efficiency: lossFree.efficiency && numbers(lossFree.efficiency), why: lossFree.why }
      : null,
  };
}
