import type { RunEvaluation } from '../../evaluation/index.js';
import type { Propagated } from '../../uncertainty/index.js';
import { displayUnit } from '../../units/index.js';
import { balanceChart, type BalanceRow } from '../charts/balanceChart.js';
import { percentResult, percentShare, resultIn } from '../format.js';
import { type Html, html } from '../html.js';
import { type Page, runLabel, twoSizes } from '../Page.js';
import { section, table, tableBehind, unbroken } from '../table.js';
import { texts } from '../texts.js';

const words = texts.balance;
const names = ['water', 'vapour', 'vessel', 'room and rest, not separated'] as const;

/** A bar a run, the same as a table with uncertainties, and how the readings of the energy agree. */
export async function balance(page: Page): Promise<Html> {
  const { runs } = page.evaluation;
  if (runs.length === 0) return html``;
  const rows = runs.map(rowOf);
  const unit = displayUnit('energy', page.units);
  const svg = await twoSizes((width) => balanceChart(rows, width, words.axis), {
    id: 'chart-balance',
    title: words.chartTitle,
    description: rows
      .map(
        ({ run, parts }) => `${run}: ${parts.map((part) => `${part.words[0]} ${part.percent}`).join(', ')}.`,
      )
      .join(' '),
  });
  return section(
    'balance',
    words.heading,
    html`<figure>${svg}${legend()}<figcaption>${words.caption} ${words.note}${runs.some((run) => !has(run, 'vessel')) && ` ${words.noVessel}`}</figcaption>
${tableBehind(texts.tableBehind, { caption: words.chartTitle, head: words.columns(unit), rows: runs.map((run) => tableRow(run, page)), figures: true })}</figure>
${table({ caption: words.energyCaption(unit), head: words.energyColumns, rows: runs.map((run) => energyRow(run, page)), figures: true })}`,
  );
}

function has(run: RunEvaluation, name: (typeof names)[number]): boolean {
  return run.balance.some((booking) => booking.name === name);
}

function rowOf(run: RunEvaluation): BalanceRow {
  return {
    run: runLabel(run),
    parts: run.balance.map(({ name, share }) => ({
      name,
      words: words.names[name],
      share: 100 * share.value,
      percent:
        share.value < 0 ? percentResult(share.value, share.expandedUncertainty) : percentShare(share.value),
    })),
  };
}

function legend(): Html {
  const swatch = (i: number) =>
    html`<svg class="swatch" aria-hidden="true" viewBox="0 0 22 14"><rect x="1" y="1" width="20" height="12" class="part-${i}"/></svg>`;
  return html`<ul class="legend">${names.map((name, i) => html`<li>${swatch(i)} ${words.names[name][0]}</li>`)}</ul>`;
}

function energyText({ value, expandedUncertainty }: Propagated, page: Page): string {
  return resultIn(value, expandedUncertainty, 'energy', displayUnit('energy', page.units));
}

function tableRow(run: RunEvaluation, page: Page) {
  const share = (name: (typeof names)[number]) => {
    const found = run.balance.find((booking) => booking.name === name);
    return found ? percentResult(found.share.value, found.share.expandedUncertainty) : words.within;
  };
  const { used, typed, logged } = run.energy;
  return [
    unbroken(run.run.id),
    energyText(((used === 'logged' && logged) || typed).energy, page),
    ...names.map(share),
  ];
}

function energyRow({ run, energy }: RunEvaluation, page: Page) {
  const text = (reading: { readonly energy: Propagated } | null) =>
    reading === null ? texts.courses.noLog : energyText(reading.energy, page);
  return [
    unbroken(run.id),
    text(energy.typed),
    text(energy.logged),
    energy.counter === null ? words.noCounter : text(energy.counter),
    energy.difference === null ? texts.courses.noLog : energyText(energy.difference, page),
    words.used[energy.used],
  ];
}
