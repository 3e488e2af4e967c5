import { roundToUncertainty } from '../uncertainty/index.js';
import { formatQuantity } from '../units/index.js';
import { type Definition, readingOf } from '../protocols/index.js';
import type { Workbook } from '../workbook/index.js';
import { type Doubt, doubts } from './doubts.js';
import { type Plan, forecast, halfWidth } from './forecast.js';
import type { Figure } from './types.js';

const reached: Record<Definition, string> = {
  water: 'reached the water',
  'water+vessel': 'reached water and vessel',
  'water+vapour': 'reached water and steam',
};

/**
 * A share in per cent with as many digits as its doubt leaves: none where the half-width is two points or more.
 *
 * @example
 * percentText(0.5612, 0.045) // => '56'
 * percentText(0.5612, 0.008) // => '56.1'
 */
export function percentText(ratio: number, halfWidthRatio: number): string {
  return roundToUncertainty(ratio * 100, halfWidthRatio * 100, 'plain').value;
}

/**
 * An interval of shares in per cent, with the digits that its width leaves.
 *
 * @example
 * rangeWords([0.512, 0.604]) // => '51 to 60 %'
 */
export function rangeWords(interval: readonly [number, number]): string {
  const half = (interval[1] - interval[0]) / 2;
  return `${percentText(interval[0], half)} to ${percentText(interval[1], half)} %`;
}

/**
 * A half-width of a share in points of a per cent.
 *
 * @example
 * pointsWords(0.031) // => '±3 points'
 * pointsWords(0.0084) // => '±0.8 points'
 */
export function pointsWords(half: number): string {
  return `±${roundToUncertainty(0, half * 100, 'plain').uncertainty} points`;
}

/**
 * What a figure says, in words that need no glossary: what reached the load, how sure, the biggest doubt, what helps
 * most. Lines are short: they are read at a bench.
 *
 * @example
 * const run = { balance: [], efficiency: { water: null } };
 * const figure = {
 *   definition: 'water', efficiency: { value: 0.561, interval: [0.54, 0.58] }, prediction: { interval: [0.512, 0.604] },
 *   spread: { basis: 'seen', standardDeviation: 0.01 }, runs: [run, run, run], budget: [],
 * };
 * const lines = plainWords(figure, { instruments: new Map() });
 * lines[0] // => '56 % reached the water. Next time: most likely 51 to 60 %'
 * lines[2] // => 'Biggest doubt: scatter from run to run.'
 */
export function plainWords(figure: Figure, workbook: Workbook): string[] {
  const half = (figure.prediction.interval[1] - figure.prediction.interval[0]) / 2;
  const lines = [
    `${percentText(figure.efficiency.value, half)} % ${reached[figure.definition]}. Next time: most likely ${rangeWords(figure.prediction.interval)}`,
  ];
  const wrong = impossibleRuns(figure);
  if (wrong.length > 0) {
    return [
      `This can't be right: ${percentText(figure.efficiency.value, half)} % would have reached the load.`,
      `More heat than energy in ${wrong.join(', ')}. Look for a wrong reading there.`,
    ];
  }
  const n = figure.runs.length;
  if (figure.spread.basis === 'assumed') {
    lines.push(`(${figure.mark ?? `${n} runs`}; run-to-run scatter assumed, not seen).`);
  } else {
    lines.push(`(${n} runs; on average ${rangeWords(figure.efficiency.interval)}).`);
  }
  const first = doubts(figure, workbook.instruments)[0];
  if (first) lines.push(`Biggest doubt: ${first.words}.`);
  const help = helpsMost(figure, workbook, first);
  if (help !== null) lines.push(`Helps most: ${help}.`);
  return lines;
}

/** Runs in which more heat is booked than energy was metered, beyond their doubt. */
function impossibleRuns(figure: Figure): string[] {
  return figure.runs
    .filter((run) => {
      const rest = run.balance[run.balance.length - 1]?.heat;
      const share = run.efficiency[figure.definition];
      const tooMuch = rest !== undefined && rest.value < -2 * rest.standardUncertainty;
      return tooMuch || (share !== null && share.interval[0] > 1);
    })
    .map((run) => run.run.id);
}

/**
 * A plan like the last of the runs that were made, to vary.
 *
 * @example
 * const conditions = { waterKg: 1.5, riseK: 40, startK: 288.15, meanPowerW: 900, weighedAfter: false, lid: 'on' };
 * const run = { run: { readings: [], instruments: {} }, conditions };
 * planLike({ protocol: { steps: [] }, efficiency: { value: 0.56 }, runs: [run] }, {}).waterKg // => 1.5
 */
export function planLike(figure: Figure, workbook: Workbook): Plan {
  const last = figure.runs[figure.runs.length - 1] as Figure['runs'][number];
  const { conditions } = last;
  const vessel = readingOf(figure.protocol, last.run, 'emptyMass');
  return {
    workbook,
    protocol: figure.protocol,
    heater: figure.heater,
    setting: figure.setting,
    instruments: last.run.instruments,
    waterKg: conditions.waterKg,
    riseK: conditions.riseK,
    startK: conditions.startK,
    powerW: conditions.meanPowerW,
    efficiency: Math.min(1, Math.max(0.05, figure.efficiency.value)),
    weighAfter: conditions.weighedAfter,
    lid: conditions.lid,
    vesselKg: vessel?.si ?? 1,
    runs: 1,
  };
}

export interface Change {
  readonly words: string;
  readonly plan: Plan;
}

/**
 * From how many runs on less scatter helps more than more runs: a prediction is t(n − 1)·√(1 + 1/n) standard deviations
 * wide on either side, 5.0 of them with three runs, 3.0 with five, 2.0 at best.
 */
const RUNS_BEFORE_CONDITIONS = 5;

/** The one change of the next heating that narrows it most, or null where none narrows it by a tenth. */
function helpsMost(figure: Figure, workbook: Workbook, first: Doubt | undefined): string | null {
  if (first?.kind === 'scatter')
    return figure.runs.length < RUNS_BEFORE_CONDITIONS
      ? 'more runs at this setting'
      : 'the same conditions in every run';
  if (figure.runs.some((run) => run.powerLog !== null)) return null;
  const best = bestChange(planLike(figure, workbook), (plan) => halfWidth(forecast(plan)));
  if (best === null) return figure.runs.length < 3 ? 'more runs at this setting' : null;
  return `${best.words} (about ${pointsWords(best.half)})`;
}

/**
 * The one change of a plan that narrows a half-width most, or null where none narrows it by a tenth. Only what costs
 * nothing but time and water is looked at. `more` are further changes of the caller's.
 *
 * @example
 * const plan = { waterKg: 1.5, startK: 288.15, riseK: 45, weighAfter: true, protocol: { limits: { maximumEnd: 353.15 } } };
 * bestChange(plan, ({ waterKg }) => 0.06 / waterKg) // => { words: '3 kg of water', half: 0.02 }
 * bestChange(plan, () => 0.04) // => null
 */
export function bestChange(
  plan: Plan,
  halfWidthOf: (plan: Plan) => number,
  more: readonly Change[] = [],
): { readonly words: string; readonly half: number } | null {
  const now = halfWidthOf(plan);
  const best = [...changes(plan), ...more]
    .map((change) => ({ words: change.words, half: halfWidthOf(change.plan) }))
    .sort((a, b) => a.half - b.half)[0];
  return best && best.half <= 0.9 * now ? best : null;
}

/** What costs nothing but time and water. */
function changes(plan: Plan): Change[] {
  const found: Change[] = [];
  const twice = roundedMass(plan.waterKg * 2);
  if (twice <= 20)
    found.push({
      words: `${formatQuantity(twice, 'mass', 'kg')} of water`,
      plan: { ...plan, waterKg: twice },
    });
  const endK = plan.startK + plan.riseK;
  const warmer = Math.min(plan.protocol.limits.maximumEnd - 2, endK + 15);
  if (warmer - endK >= 5) {
    const end = formatQuantity(warmer, 'temperature', '°C', 0);
    found.push({ words: `heating on to ${end}`, plan: { ...plan, riseK: warmer - plan.startK } });
  }
  if (!plan.weighAfter)
    found.push({ words: 'weighing again at the end', plan: { ...plan, weighAfter: true } });
  return found;
}

/** To half kilograms, as a person would fill. */
function roundedMass(kg: number): number {
  return kg < 1 ? Math.round(kg * 10) / 10 : Math.round(kg * 2) / 2;
}

/** "This meter: 1.5 kg gives about ±4 points, 3 kg about ±3." */
export function forecastWords(plan: Plan): string {
  const [once, twice] = [plan, { ...plan, waterKg: roundedMass(plan.waterKg * 2) }];
  const kg = (each: Plan) => formatQuantity(Number(each.waterKg.toPrecision(3)), 'mass', 'kg');
  const [first, second] = [once, twice].map((each) => halfWidth(forecast(each)));
  return `This meter: ${kg(once)} gives about ${pointsWords(first as number)}, ${kg(twice)} about ${pointsWords(second as number).replace(' points', '')}.`;
}
