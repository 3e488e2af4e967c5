import type { Figure } from '../../evaluation/index.js';
import { repeatabilityChart } from '../charts/repeatabilityChart.js';
import { percentResult, twoDigits } from '../format.js';
import { type Html, html } from '../html.js';
import { figureName, type Page, picture } from '../Page.js';
import { section, tableBehind, unbroken } from '../table.js';
import { texts } from '../texts.js';

const words = texts.repeatability;

/** The runs of each setting around their mean, all on one scale. */
export async function repeatability(page: Page): Promise<Html> {
  const { figures } = page.evaluation;
  if (figures.length === 0) return html``;
  const reach =
    1.15 *
    Math.max(
      0.1,
      ...figures.flatMap((figure) => [
        100 * figure.spread.standardDeviation,
        ...differences(figure).map(Math.abs),
      ]),
    );
  const parts: Html[] = [];
  for (const [i, figure] of figures.entries()) parts.push(await oneFigure(figure, i, reach, page));
  return section('repeatability', words.heading, html`<div class="grid">${parts}</div>`);
}

/** Efficiency of each run less that of the figure, in points. */
function differences(figure: Figure): number[] {
  return figure.runs.map(
    (run) => 100 * ((run.efficiency[figure.definition]?.value ?? Number.NaN) - figure.efficiency.value),
  );
}

async function oneFigure(figure: Figure, index: number, reach: number, page: Page): Promise<Html> {
  const name = figureName(figure, page.evaluation.figures);
  const offsets = differences(figure);
  const rows = figure.runs
    .map(({ run }, i) => ({ run: run.id, difference: offsets[i] as number }))
    .filter(({ difference }) => Number.isFinite(difference));
  const signed = (value: number) => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(2)}`;
  const svg =
    rows.length > 0 &&
    (await picture(repeatabilityChart(rows, 100 * figure.spread.standardDeviation, reach, 340, words.axis), {
      id: `chart-repeat-${index + 1}`,
      title: words.chartTitle(name),
      description: rows.map((row) => `${row.run}: ${signed(row.difference)}.`).join(' '),
    }));
  const basis = texts.summary.spread(twoDigits(100 * figure.spread.standardDeviation), figure.spread.words);
  return html`<figure class="card"><figcaption><strong>${name}</strong></figcaption>${svg}
<p class="quiet">${words.caption(basis)}</p>
${tableBehind(texts.tableBehind, {
  caption: words.chartTitle(name),
  head: words.columns,
  rows: figure.runs.map((run, i) => {
    const result = run.efficiency[figure.definition];
    return [
      unbroken(run.run.id),
      result ? percentResult(result.value, result.expandedUncertainty) : texts.notMeasured,
      Number.isFinite(offsets[i]) ? signed(offsets[i] as number) : '',
    ];
  }),
  figures: true,
})}</figure>`;
}
