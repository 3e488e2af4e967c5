import { doubts, type Figure, type FigureBudgetRow, validationsOf } from '../../evaluation/index.js';
import { type BudgetBar, budgetChart } from '../charts/budgetChart.js';
import { percentShare, twoDigits } from '../format.js';
import { type Html, html } from '../html.js';
import { figureName, type Page, twoSizes } from '../Page.js';
import { section, table } from '../table.js';
import { texts } from '../texts.js';

const words = texts.budget;
/** Sources that get a bar of their own; the others share one. */
const MOST_BARS = 8;

/** What makes each figure doubtful: in words, as bars, as a table. */
export async function budgets(page: Page): Promise<Html> {
  const { figures } = page.evaluation;
  if (figures.length === 0) return html``;
  const parts: Html[] = [];
  for (const [i, figure] of figures.entries()) parts.push(await oneFigure(figure, i, page));
  return section('doubts', words.heading, html`<p class="quiet">${words.assumedNote}</p>${parts}`);
}

async function oneFigure(figure: Figure, index: number, page: Page): Promise<Html> {
  const name = figureName(figure, page.evaluation.figures);
  const rows = [...figure.budget].sort((a, b) => b.share - a.share);
  const doubt = doubts(figure, page.evaluation.workbook.instruments)[0];
  const ofMean = rows[0];
  const bars = barsOf(rows);
  const svg =
    bars.length > 0 &&
    (await twoSizes((width) => budgetChart(bars, width, words.assumed), {
      id: `chart-budget-${index + 1}`,
      title: words.chartTitle(name),
      description: bars
        .map((bar) => `${bar.name}${bar.assumed ? `, ${words.assumed}` : ''}: ${bar.percent}.`)
        .join(' '),
    }));
  return html`<h3>${name}</h3>
<p>${doubt ? words.doubt(doubt.words, percentShare(doubt.share)) : words.none}${ofMean && html` ${words.doubtOfMean(ofMean.source, percentShare(ofMean.share))}`}</p>
<figure>${svg}</figure>${table({
    caption: words.chartTitle(name),
    head: words.columns,
    rows: [...rows.map(tableRow), totalRow(figure)],
    figures: true,
    wordColumns: [0, 3],
    quietCaption: true,
  })}
<p class="quiet">${words.metrology(figure.efficiency.coverageFactor.toFixed(2), degreesText(figure), figure.efficiency.degreesOfFreedomBasis)}</p>
${validations(figure)}`;
}

/** Whether first order stands beside Monte Carlo, run by run. */
function validations(figure: Figure): Html {
  const found = validationsOf(figure);
  if (found.length === 0) return html``;
  const items = found.map(({ run, validation }) => html`<li>${run}: ${validation.sentence}</li>`);
  return html`<p class="quiet">${words.validation}</p><ul class="quiet">${items}</ul>`;
}

function degreesText(figure: Figure): string {
  const degrees = figure.efficiency.degreesOfFreedom;
  return Number.isFinite(degrees) ? degrees.toFixed(1) : words.infinite;
}

function barsOf(rows: readonly FigureBudgetRow[]): BudgetBar[] {
  const bar = (name: string, share: number, assumed: boolean) => ({
    name,
    share,
    percent: percentShare(share),
    assumed,
  });
  const shown = rows.length > MOST_BARS ? rows.slice(0, MOST_BARS - 1) : rows;
  const others = rows.slice(shown.length);
  const bars = shown.map((row) => bar(row.source, row.share, row.assumed));
  if (others.length > 0) {
    const share = others.reduce((sum, row) => sum + row.share, 0);
    bars.push(bar(words.others(others.length), share, false));
  }
  return bars;
}

function tableRow(row: FigureBudgetRow) {
  return [
    html`${row.source}${row.assumed && html` <em>(${words.assumed})</em>`}`,
    percentShare(row.share),
    twoDigits(row.contribution * 100),
    words.scopes[row.scope],
    row.sensitivity === null ? '' : threeDigits(row.sensitivity),
  ];
}

/** Three significant digits; very small and very large ones as a power of ten. */
function threeDigits(value: number): Html {
  const minus = (text: string) => text.replace('-', '−');
  const [mantissa, exponent] = value.toPrecision(3).split('e');
  return html`${minus(mantissa ?? '')}${exponent !== undefined && html`\u00a0×\u00a010<sup>${minus(exponent.replace('+', ''))}</sup>`}`;
}

function totalRow(figure: Figure) {
  return [
    html`<strong>${words.total}</strong>`,
    percentShare(figure.budget.reduce((sum, row) => sum + row.share, 0)),
    html`<strong>${twoDigits(figure.efficiency.standardUncertainty * 100)}</strong>`,
    '',
    '',
  ];
}
