import type { Fill } from '../../fitting/index.js';
import { add, constant, errorOf, multiply, type Quantity, type SourceBook } from '../../uncertainty/index.js';
import type { Workbook } from '../../workbook/index.js';
import { evaluateRun } from '../evaluateRun.js';
import type { RunContext } from '../RunContext.js';
import type { RunEvaluation } from '../types.js';
import { fillWithoutLog } from './fillWithoutLog.js';
import { loadOf, neededVessel } from './loadOf.js';
import { loggedFill } from './loggedFill.js';
import { methodContext } from './methodContext.js';
import type { MethodRun, StoredRun } from './types.js';

/** A run at one of several fills, and what goes into the line through them. */
export interface FillRun extends MethodRun {
  readonly fillName: string;
  readonly fill: Fill;
  readonly vessel: Quantity;
  readonly capacityWithoutBody: Quantity;
}

/** Contact and draught differ from run to run: relative standard uncertainty of a heating rate; common practice, no source. */
const RUN_SPREAD = 0.005;
/** What of the steam's heat is not in proportion to the difference to the room, as the fit takes it; common practice, no source. */
const STEAM_SHARE = 0.3;

/** A heating at one fill: its efficiency as ever, and κ/(C + C_b) from the fit to its log, or from energy and rise without one. */
export function fillRun(book: SourceBook, workbook: Workbook, stored: StoredRun): FillRun {
  const evaluation = evaluateRun({ book, workbook, ...stored });
  const context = methodContext(book, workbook, stored);
  const { startK, endK, ambientK } = evaluation.conditions;
  const load = loadOf(context, startK, endK, ambientK ?? startK, null);
  const vessel = neededVessel(context, load);
  const ratio = load.body.value / add(load.water, vessel).value;
  const logged = loggedFill(context, stored, evaluation, ratio);
  const { rates, fit, how } = logged ?? { ...fillWithoutLog(context, evaluation, load), fit: null };
  const spread = unevenRuns(context, steamShare(evaluation));
  const step = stored.protocol.steps.find((each) => each.kind === 'choice' && each.role === 'fill');
  const fillName = (step && stored.run.choices[step.id]) ?? 'unknown';
  return {
    run: stored.run,
    protocol: stored.protocol,
    fillName,
    fill: {
      loadHeatCapacityJPerK: add(load.water, wetted(context, vessel, fillName)),
      heatingRate: multiply(rates.heatingRate, spread),
      ...(rates.lossRate ? { lossRate: rates.lossRate } : {}),
    },
    vessel,
    capacityWithoutBody: add(load.water, vessel),
    quantities: { kappaWithoutBody: multiply(multiply(rates.heatingRate, spread), add(load.water, vessel)) },
    facts: {
      fill: fillName,
      waterKg: evaluation.conditions.waterKg,
      heatCapacityJPerK: load.water.value,
      energyPerKelvinJ: 1 / rates.heatingRate.value,
      startK,
      endK,
      ambientK,
      meanPowerW: evaluation.conditions.meanPowerW,
      efficiency: evaluation.efficiency[stored.protocol.headline]?.value ?? null,
      how,
    },
    fit,
    efficiency: evaluation,
    warnings: [...evaluation.warnings, ...context.warnings],
  };
}

function steamShare(evaluation: RunEvaluation): number {
  const vapour = evaluation.balance.find(({ name }) => name === 'vapour')?.share.value ?? 0;
  return STEAM_SHARE * Math.abs(vapour);
}

/** One, give or take what differs from run to run and what of the steam the fit doesn't see. */
function unevenRuns(context: RunContext, steam: number): Quantity {
  const { book, run } = context;
  const spread = { id: `run:${run.id}:rate-spread`, name: 'contact and draught differ from run to run' };
  const damp = { id: `run:${run.id}:steam-share`, name: 'steam that is not in proportion to the difference' };
  return add(
    constant(1),
    errorOf(book.get({ ...spread, standardUncertainty: RUN_SPREAD, scope: 'run', assumed: true })),
    errorOf(book.get({ ...damp, halfWidth: Math.max(steam, 1e-6), scope: 'run', assumed: true })),
  );
}

/** How much more or less of the vessel warms at this fill than at the others, J/K; its value is zero. */
function wetted(context: RunContext, vessel: Quantity, fill: string): Quantity {
  const error = context.book.get({
    id: `heater:${context.heater.id}:wetted:${fill}`,
    name: `share of the vessel that warms, fill ${fill}`,
    halfWidth: 0.1,
    scope: 'heater',
    assumed: true,
  });
  return multiply(vessel, errorOf(error));
}
