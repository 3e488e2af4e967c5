import { problem } from '../../errors/index.js';
import {
  type Figure,
  type Plan,
  type Rota,
  dayRota,
  planned,
  pointsWords,
  randomOrder,
} from '../../evaluation/index.js';
import { formatDuration, readQuantity } from '../../units/index.js';
import type { Workbook } from '../../workbook/index.js';
import { type PlanArgs, count } from './PlanArgs.js';
import type { Outcome } from '../Outcome.js';

/** A heater's body is back at rest after this long; common practice, no source. */
const COOLING_S = 2 * 3600;

/** The rota of one day: every heater once, repeats on some, the cool-downs kept. */
export function dayPlan(args: PlanArgs, workbook: Workbook, plan: Plan, figure: Figure | undefined): Outcome {
  const heaters = count(args.heaters, '--heaters', workbook.heaters.size, 500);
  const names = Array.from({ length: heaters }, (_, i) => `heater ${String(i + 1).padStart(2, '0')}`);
  const hours = args.hours === undefined ? 5 : Number(args.hours);
  if (!(hours > 0 && hours <= 24))
    throw problem(
      'option-bad',
      { message: `--hours takes hours of one day, such as 5; this was "${args.hours}".` },
      { key: '--hours' },
    );
  const coolSeconds =
    args.cool === undefined
      ? COOLING_S
      : readQuantity(args.cool, { kind: 'time', unit: 'min' }, { key: '--cool' }).si;
  const seed = args.seed ?? `day-${workbook.settings.name}`;
  const one = planned({ ...plan, runs: 1 });
  const meters = count(args.meters, '--meters', 1, 100);
  const rota = dayRota({
    heaters: names,
    meters,
    daySeconds: hours * 3600,
    testSeconds: Math.ceil(one.workS / 300) * 300,
    coolSeconds,
    order: randomOrder(heaters, seed),
  });
  return {
    data: {
      rota,
      seed,
      oneRun: { meanHalfWidth: one.meanHalfWidth, workS: one.workS },
      basis: figure ? 'as tested' : 'assumed',
    },
    lines: [
      ...rotaLines(rota, meters),
      ...scatterLines(rota, one.predictionHalfWidth),
      `Order drawn with seed "${seed}".`,
    ],
  };
}

function rotaLines(rota: Rota, meters: number): string[] {
  const lines: string[] = [];
  for (let meter = 1; meter <= meters; meter++) {
    lines.push(`meter ${meter}:`);
    for (const slot of rota.slots.filter((each) => each.meter === meter)) {
      const again = slot.run > 1 ? `, run ${slot.run}` : '';
      lines.push(`  ${clock(slot.startS)} to ${clock(slot.endS)}  ${slot.heater}${again}`);
    }
  }
  if (rota.left.length > 0) lines.push(`No time is left for: ${rota.left.join(', ')}.`);
  return lines;
}

/** Hours and minutes from the start of the day. */
function clock(seconds: number): string {
  return formatDuration(Math.round(seconds / 60) * 60 + 36_000)
    .replace(/:\d\d$/, '')
    .replace(/^(\d+)/, (hours) => String(Number(hours) - 10));
}

function scatterLines(rota: Rota, half: number): string[] {
  const repeated = rota.repeated.length;
  if (repeated === 0)
    return [
      `No heater is tested twice: the scatter from run to run stays assumed, each to about ${pointsWords(half)}.`,
    ];
  return [
    `${repeated} ${repeated === 1 ? 'heater is' : 'heaters are'} tested more than once (${rota.repeated.join(', ')}).`,
    'Those with three runs show their own scatter; for the others it is borrowed from them or assumed, and labelled so.',
  ];
}
