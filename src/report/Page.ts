import type { Figure, RunEvaluation, WorkbookEvaluation } from '../evaluation/index.js';
import type { UnitSystem } from '../units/index.js';
import { accessibleSvg, type ChartWords } from './accessibleSvg.js';
import { type ChartSpec, drawChart } from './drawChart.js';
import { type Html, html } from './html.js';
import { texts } from './texts.js';

/** What every section of the page is written from. */
export interface Page {
  readonly evaluation: WorkbookEvaluation;
  readonly units: UnitSystem;
  readonly generatedAt: Date;
  readonly version: string;
}

/** Draws a chart with its words; ids are ours, see ChartWords. */
export async function picture(spec: ChartSpec, words: ChartWords): Promise<Html> {
  return accessibleSvg(await drawChart(spec), words);
}

/** Figures and runs by heater and in the order in which the heater lists its settings, not by their names. */
export function inOrderOfSettings(evaluation: WorkbookEvaluation): WorkbookEvaluation {
  const place = (heater: Figure['heater'], setting: string) =>
    heater.settings.findIndex((each) => each.id === setting);
  const compare = (a: [Figure['heater'], string], b: [Figure['heater'], string]) =>
    a[0].id === b[0].id ? place(...a) - place(...b) : a[0].id < b[0].id ? -1 : 1;
  return {
    ...evaluation,
    figures: evaluation.figures.toSorted((a, b) => compare([a.heater, a.setting], [b.heater, b.setting])),
    runs: evaluation.runs.toSorted((a, b) => compare([a.heater, a.run.setting], [b.heater, b.run.setting])),
  };
}

/** The name of a setting as its heater's record gives it. */
export function settingName(heater: Figure['heater'], setting: string): string {
  return heater.settings.find((each) => each.id === setting)?.name ?? setting;
}

/** What a figure is called: its setting, with all that is needed to tell it from the others of the page. */
export function figureName(figure: Figure, all: readonly Figure[]): string {
  const parts = [settingName(figure.heater, figure.setting)];
  if (all.some((each) => each.heater.id !== figure.heater.id)) parts.unshift(figure.heater.name);
  if (all.some((each) => each.protocol.name !== figure.protocol.name)) parts.push(figure.protocol.title);
  return parts.join(', ');
}

/** The id of a run, with a word where a person took it out of its figure. */
export function runLabel({ run }: RunEvaluation): string {
  return run.excluded === null ? run.id : texts.refused.label(run.id);
}

/** Time of a mark by its role, in epoch milliseconds; null where it was not set. */
export function markTimeMs(
  { protocol, run }: RunEvaluation,
  role: 'startLog' | 'switchOn' | 'switchOff',
): number | null {
  const step = protocol.steps.find((each) => each.kind === 'mark' && each.role === role);
  const at = step ? Date.parse(run.marks[step.id] ?? '') : Number.NaN;
  return Number.isNaN(at) ? null : at;
}

/** The same chart for wide pages and paper, and for narrow screens, where text would shrink with the picture. */
export async function twoSizes(draw: (outerWidth: number) => ChartSpec, words: ChartWords): Promise<Html> {
  const wide = await picture(draw(720), { ...words, id: `${words.id}-wide` });
  const narrow = await picture(draw(340), { ...words, id: `${words.id}-narrow` });
  return html`<div class="wide">${wide}</div><div class="narrow">${narrow}</div>`;
}
