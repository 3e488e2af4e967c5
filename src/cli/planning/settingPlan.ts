import {
  type Figure,
  type Plan,
  type Planned,
  bestChange,
  cheapestPlan,
  doubts,
  planned,
  pointsWords,
  randomOrder,
} from '../../evaluation/index.js';
import { problem } from '../../errors/index.js';
import { formatQuantity, readQuantity } from '../../units/index.js';
import type { Workbook } from '../../workbook/index.js';
import type { PlanArgs } from './PlanArgs.js';
import type { Outcome } from '../Outcome.js';

/** What a test of one heater will give, what helps, the cheapest plan that meets a target, and the order of runs. */
export function settingPlan(
  args: PlanArgs,
  workbook: Workbook,
  plan: Plan,
  figure: Figure | undefined,
): Outcome {
  const spread = spreadOf(figure);
  const now = planned(plan, spread);
  const more = { words: `${plan.runs + 3} runs`, plan: { ...plan, runs: plan.runs + 3 } };
  const help = bestChange(plan, (each) => planned(each, spread).meanHalfWidth, [more]);
  const doubt = doubts(now.single, workbook.instruments)[0]?.words.replace(
    /, assumed$/,
    figure?.spread.basis === 'seen' ? '' : ', assumed',
  );
  const seed = args.seed ?? `${plan.heater.id}-${workbook.settings.name}`;
  const settings = args.setting === undefined ? plan.heater.settings.map((each) => each.id) : [plan.setting];
  const slots = settings.flatMap((setting) => Array.from({ length: plan.runs }, () => setting));
  const order = randomOrder(slots.length, seed).map((i) => slots[i] as string);
  const target = targetOf(args);
  const mostKg =
    args.mostWater === undefined
      ? plan.waterKg * 4
      : readQuantity(args.mostWater, { kind: 'mass', unit: 'kg' }, { key: '--most-water' }).si;
  const cheapest = target === null ? null : cheapestPlan(plan, target, mostKg, spread);
  const lines = [
    `${plan.heater.name}, ${plan.setting}: ${describe(plan)}`,
    `  the average to about ${pointsWords(now.meanHalfWidth)}, the next heating to about ${pointsWords(now.predictionHalfWidth)}`,
    `  ${spreadWords(figure)}`,
    `Biggest doubt of one run: ${doubt ?? 'none'}.`,
    ...(help ? [`Helps most: ${help.words} (the average to about ${pointsWords(help.half)}).`] : []),
    ...targetLines(target, cheapest, now),
    `Order of runs (seed "${seed}"): ${order.join(', ')}`,
    '',
    `Next: heatledger test ${plan.protocol.name} --heater ${plan.heater.id} --setting ${order[0]}`,
  ];
  return {
    data: {
      plan: planData(now),
      helpsMost: help,
      target,
      cheapest: cheapest && planData(cheapest),
      order,
      seed,
    },
    lines,
  };
}

function spreadOf(figure: Figure | undefined): number | undefined {
  if (figure?.spread.basis !== 'seen') return undefined;
  return figure.spread.standardDeviation / figure.efficiency.value;
}

function spreadWords(figure: Figure | undefined): string {
  if (figure?.spread.basis !== 'seen')
    return '(scatter from run to run assumed as 2 % of the value: common practice, no source)';
  return `(scatter from run to run as ${figure.spread.words})`;
}

function describe(plan: Plan): string {
  const water = formatQuantity(Number(plan.waterKg.toPrecision(3)), 'mass', 'kg');
  const rise = formatQuantity(plan.riseK, 'temperatureDifference', 'K', 0);
  return `${plan.runs} ${plan.runs === 1 ? 'run' : 'runs'} with ${water} of water, ${rise} up`;
}

function targetOf(args: PlanArgs): number | null {
  if (args.target === undefined) return null;
  const target = readQuantity(args.target, { kind: 'ratio', unit: '1' }, { key: '--target' }).si;
  if (!(target > 0 && target < 0.5)) {
    throw problem(
      'option-bad',
      {
        message: `--target takes a half-width above 0 and below 0.5, such as 0.02; this was "${args.target}".`,
      },
      { key: '--target' },
    );
  }
  return target;
}

function targetLines(target: number | null, cheapest: Planned | null, now: Planned): string[] {
  if (target === null) return [];
  const wanted = pointsWords(target);
  if (cheapest === null) {
    const alone = pointsWords(1.96 * now.sharedU);
    return [
      `No plan near this one reaches ${wanted}: what all runs share alone makes about ${alone}. A better instrument is needed.`,
    ];
  }
  return [
    `Cheapest for ${wanted}: ${describe(cheapest.plan)}, about ${hours(cheapest.workS)} of work (the average to about ${pointsWords(cheapest.meanHalfWidth)}).`,
  ];
}

/** To half hours: nobody plans a bench to the minute. */
function hours(seconds: number): string {
  const halves = Math.max(1, Math.round(seconds / 1800)) / 2;
  return `${halves} ${halves === 1 ? 'hour' : 'hours'}`;
}

function planData(planned: Planned): unknown {
  const { plan } = planned;
  return {
    heater: plan.heater.id,
    setting: plan.setting,
    runs: plan.runs,
    waterKg: plan.waterKg,
    riseK: plan.riseK,
    meanHalfWidth: planned.meanHalfWidth,
    predictionHalfWidth: planned.predictionHalfWidth,
    freshUncertainty: planned.freshU,
    sharedUncertainty: planned.sharedU,
    workS: planned.workS,
  };
}
