import type { Figure } from '../../evaluation/index.js';
import { definitions } from '../../protocols/index.js';
import { type FigureRow, figuresChart } from '../charts/figuresChart.js';
import { halfWidth, percentInterval, percentResult, percentShare, twoDigits } from '../format.js';
import { type Html, html } from '../html.js';
import { figureName, type Page, twoSizes } from '../Page.js';
import { section, table } from '../table.js';
import { texts } from '../texts.js';

const words = texts.summary;

/** The settings as a table, the three definitions side by side, and a chart of points with intervals. */
export async function summary(page: Page): Promise<Html> {
  const { figures } = page.evaluation;
  if (figures.length === 0) return html``;
  const coverages = [...new Set(figures.map((figure) => percentShare(figure.efficiency.coverage)))].join(
    ', ',
  );
  return section(
    'settings',
    words.heading,
    html`${table({ caption: words.caption, head: words.columns, rows: figures.map((each) => mainRow(each, figures)), figures: true, wordColumns: [5] })}
<p class="quiet">${words.coverage(coverages)}</p>
${await chart(figures)}
${table({ caption: words.definitionsCaption, head: words.definitionsColumns, rows: figures.map((each) => definitionsRow(each, figures)), figures: true })}
<p class="quiet">${words.definitionsNote}</p>`,
  );
}

function resultOf(figure: Figure): string {
  return percentResult(figure.efficiency.value, halfWidth(figure.efficiency.interval));
}

function mainRow(figure: Figure, all: readonly Figure[]) {
  const { standardDeviation, words: basis } = figure.spread;
  return [
    figureName(figure, all),
    html`<strong>${resultOf(figure)}</strong>`,
    percentInterval(figure.efficiency.interval),
    percentInterval(figure.prediction.interval),
    figure.mark ?? String(figure.runs.length),
    words.spread(twoDigits(standardDeviation * 100), basis),
  ];
}

function definitionsRow(figure: Figure, all: readonly Figure[]) {
  const cells = definitions.map((definition) => {
    const result = figure.definitions[definition];
    if (result === null) return texts.notMeasured;
    const text = percentResult(result.value, halfWidth(result.interval));
    return definition === figure.definition ? html`<strong>${text}</strong>` : text;
  });
  return [figureName(figure, all), ...cells];
}

async function chart(figures: readonly Figure[]): Promise<Html> {
  const inPercent = ([low, high]: readonly [number, number]) => [100 * low, 100 * high] as const;
  const rows: FigureRow[] = figures.map((figure) => ({
    name: figureName(figure, figures),
    result: resultOf(figure),
    value: 100 * figure.efficiency.value,
    interval: inPercent(figure.efficiency.interval),
    prediction: inPercent(figure.prediction.interval),
  }));
  const svg = await twoSizes((width) => figuresChart(rows, width, words.axis), {
    id: 'chart-settings',
    title: words.chartTitle,
    description: figures
      .map(
        (figure, i) =>
          `${rows[i]?.name}: ${rows[i]?.result}; ${texts.headline.future}${percentInterval(figure.prediction.interval)}.`,
      )
      .join(' '),
  });
  return html`<figure>${svg}<figcaption>${words.chartCaption}</figcaption></figure>`;
}
