import type { Argv } from 'yargs';
import { problem } from '../../errors/index.js';
import { type Figure, type Plan, evaluateWorkbook } from '../../evaluation/index.js';
import { checkHeater, findProtocol, instrumentsOfKind } from '../../protocols/index.js';
import { type QuantityKind, readQuantity } from '../../units/index.js';
import { type Workbook, instrumentKinds } from '../../workbook/index.js';
import { askFor } from '../askFor.js';
import { type Outcome, theWorkbook } from '../Outcome.js';
import { dayPlan } from '../planning/dayPlan.js';
import { type PlanArgs, count } from '../planning/PlanArgs.js';
import { settingPlan } from '../planning/settingPlan.js';
import type { Command } from '../Command.js';

export const command: Command = {
  builder: (yargs: Argv) =>
    yargs
      .option('heater', { type: 'string', requiresArg: true, describe: 'the heater to be tested' })
      .option('setting', {
        type: 'string',
        requiresArg: true,
        describe: 'its setting (else all of them in the order of runs)',
      })
      .option('protocol', { type: 'string', requiresArg: true, describe: 'the procedure' })
      .option('water', { type: 'string', requiresArg: true, describe: 'mass of water, such as "3 kg"' })
      .option('most-water', {
        type: 'string',
        requiresArg: true,
        describe: 'most that vessel and scale take',
      })
      .option('start', {
        type: 'string',
        requiresArg: true,
        describe: 'temperature of the water at the start',
      })
      .option('rise', { type: 'string', requiresArg: true, describe: 'rise, such as "40 K"' })
      .option('power', { type: 'string', requiresArg: true, describe: 'power of the heater' })
      .option('efficiency', {
        type: 'string',
        requiresArg: true,
        describe: 'what the efficiency will be, roughly',
      })
      .option('runs', { type: 'string', requiresArg: true, describe: 'runs a setting' })
      .option('target', {
        type: 'string',
        requiresArg: true,
        describe: 'half-width the average is to have, such as 0.02',
      })
      .option('seed', { type: 'string', requiresArg: true, describe: 'fixes the random order of runs' })
      .option('day', { type: 'boolean', describe: 'a rota for one day with many heaters' })
      .option('heaters', { type: 'string', requiresArg: true, describe: 'how many heaters come that day' })
      .option('meters', { type: 'string', requiresArg: true, describe: 'how many plug-in meters there are' })
      .option('hours', { type: 'string', requiresArg: true, describe: 'how long the day is' })
      .option('cool', {
        type: 'string',
        requiresArg: true,
        describe: 'time a heater needs to cool, such as "2 h"',
      }),
  handler: async (args: PlanArgs): Promise<Outcome> => {
    const workbook = theWorkbook(args);
    const { plan, figure } = await planOf(args, workbook);
    return args.day === true
      ? dayPlan(args, workbook, plan, figure)
      : settingPlan(args, workbook, plan, figure);
  },
};

/** A quantity of an option, or what stands in for it. */
function option(
  value: string | undefined,
  key: string,
  kind: QuantityKind,
  unit: string,
  fallback: number,
): number {
  return value === undefined ? fallback : readQuantity(value, { kind, unit }, { key }).si;
}

/** The plan that the options mean; what they leave out is taken from the runs there are, else from common practice. */
async function planOf(
  args: PlanArgs,
  workbook: Workbook,
): Promise<{ plan: Plan; figure: Figure | undefined }> {
  const heaters = [...workbook.heaters.keys()];
  const id =
    args.heater ??
    (heaters.length === 1
      ? (heaters[0] as string)
      : await askFor(args, '--heater', 'Which heater', 'the heater', heaters[0], heaters));
  checkHeater(workbook, id, args.setting);
  const heater = workbook.heaters.get(id) as Plan['heater'];
  const setting = args.setting ?? (heater.settings[0]?.id as string);
  const figure = evaluateWorkbook(workbook, { heater: id }).figures.find((each) => each.setting === setting);
  const last = figure?.runs.at(-1)?.conditions;
  const { protocol } = findProtocol(args.protocol ?? figure?.protocol.name ?? 'water-heating', workbook.dir);
  const instruments: Record<string, string> = {};
  for (const kind of instrumentKinds) {
    const known = figure?.runs.at(-1)?.run.instruments[kind] ?? instrumentsOfKind(workbook, kind)[0];
    if (known !== undefined) instruments[kind] = known;
  }
  const efficiency = option(
    args.efficiency,
    '--efficiency',
    'ratio',
    '1',
    Math.min(1, figure?.efficiency.value ?? 0.6),
  );
  if (!(efficiency > 0 && efficiency <= 1))
    throw problem('efficiency-bad', { got: String(efficiency) }, { key: '--efficiency' });
  const plan: Plan = {
    workbook,
    protocol,
    heater,
    setting,
    instruments,
    waterKg: option(args.water, '--water', 'mass', 'kg', last?.waterKg ?? 1.5),
    startK: option(args.start, '--start', 'temperature', '°C', last?.startK ?? 293.15),
    riseK: option(args.rise, '--rise', 'temperatureDifference', 'K', last?.riseK ?? 40),
    powerW: option(args.power, '--power', 'power', 'W', last?.meanPowerW ?? heater.ratedPower ?? 1000),
    efficiency,
    weighAfter: true,
    lid: 'on',
    vesselKg: 1,
    runs: count(args.runs, '--runs', Math.max(3, protocol.limits.minimumRuns), 100),
  };
  checkPlan(plan);
  return { plan, figure };
}

function checkPlan(plan: Plan): void {
  const positive: [number, string, string][] = [
    [plan.waterKg, '--water', 'mass of water'],
    [plan.riseK, '--rise', 'rise'],
    [plan.powerW, '--power', 'power'],
  ];
  for (const [value, key, what] of positive) {
    if (!(value > 0))
      throw problem('option-bad', { message: `The ${what} must be more than zero.` }, { key });
  }
  if (plan.startK + plan.riseK > 273.15 + 95) {
    throw problem(
      'option-bad',
      { message: 'Start and rise would end above 95 °C, where steam takes over.' },
      { key: '--rise' },
    );
  }
}
