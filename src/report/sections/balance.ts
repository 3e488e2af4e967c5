import type { Booking, RunEvaluation } from '../../evaluation/index.js';
import type { Propagated } from '../../uncertainty/index.js';
import { displayUnit } from '../../units/index.js';
import { balanceChart, type BalanceRow } from '../charts/balanceChart.js';
import { percentResult, percentShare, resultIn } from '../format.js';
import { type Html, html } from '../html.js';
import { type Page, runLabel, twoSizes } from '../Page.js';
import { section, table, tableBehind, unbroken } from '../table.js';
import { texts } from '../texts.js';

const words = texts.balance;
type Name = Booking['name'];
/** Entries in the order in which they stand, with the number of their pattern. */
const patterns: readonly (readonly [Name, number])[] = [
  ['water', 0],
  ['vapour', 1],
  ['vessel', 2],
  ['heater body', 4],
  ['room', 5],
  ['rest', 6],
  ['room and rest, not separated', 3],
];
const always: readonly Name[] = ['water', 'vapour', 'vessel'];

/** A bar a run, the same as a table with uncertainties, and how the readings of the energy agree. */
export async function balance(page: Page): Promise<Html> {
  const { runs } = page.evaluation;
  if (runs.length === 0) return html``;
  const rows = runs.map(rowOf);
  const shown = patterns.filter(([name]) => always.includes(name) || runs.some((run) => has(run, name)));
  const names = shown.map(([name]) => name);
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
    html`<figure>${svg}${legend(shown)}<figcaption>${words.caption} ${notes(runs).join(' ')}</figcaption>
${tableBehind(texts.tableBehind, { caption: words.chartTitle, head: [...words.columns(unit), ...names.map((name) => words.columnNames[name])], rows: runs.map((run) => tableRow(run, names, page)), figures: true })}</figure>
${table({ caption: words.energyCaption(unit), head: words.energyColumns, rows: runs.map((run) => energyRow(run, page)), figures: true })}${withoutLoss(runs)}`,
  );
}

/** What the entries mean and where the loss to the room is from. */
function notes(runs: readonly RunEvaluation[]): string[] {
  const together = runs.filter((run) => has(run, 'room and rest, not separated'));
  const apart = runs.filter((run) => has(run, 'room'));
  const same = apart.filter((run) => run.loss?.fromThisRun === true).map(({ run }) => run.id);
  const from = [...new Set(apart.flatMap((run) => run.loss?.from ?? []))].join(' and ');
  return [
    ...(together.length > 0 ? [words.note] : []),
    ...(apart.length > 0 ? [words.roomNote(from)] : []),
    ...(same.length > 0 ? [words.sameRun(same.join(', '))] : []),
    ...(runs.some((run) => !has(run, 'vessel')) ? [words.noVessel] : []),
  ];
}

/** Runs whose log shows the drifts before and after, with and without the loss to the room. */
function withoutLoss(runs: readonly RunEvaluation[]): Html {
  const rows = runs.flatMap((run) => {
    const free = run.lossFree?.efficiency;
    const plain = run.efficiency[run.protocol.headline];
    if (!free || !plain) return [];
    const text = (result: Propagated) => percentResult(result.value, result.expandedUncertainty);
    return [[unbroken(run.run.id), text(plain), text(free)]];
  });
  if (rows.length === 0) return html``;
  return table({ caption: words.freeCaption, head: words.freeColumns, rows, figures: true });
}

function has(run: RunEvaluation, name: Name): boolean {
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

function legend(shown: typeof patterns): Html {
  const swatch = (i: number) =>
    html`<svg class="swatch" aria-hidden="true" viewBox="0 0 22 14"><rect x="1" y="1" width="20" height="12" class="part-${i}"/></svg>`;
  return html`<ul class="legend">${shown.map(([name, i]) => html`<li>${swatch(i)} ${words.names[name][0]}</li>`)}</ul>`;
}

function energyText({ value, expandedUncertainty }: Propagated, page: Page): string {
  return resultIn(value, expandedUncertainty, 'energy', displayUnit('energy', page.units));
}

function tableRow(run: RunEvaluation, names: readonly Name[], page: Page) {
  const share = (name: Name) => {
    const found = run.balance.find((booking) => booking.name === name);
    if (found) return percentResult(found.share.value, found.share.expandedUncertainty);
    if (name.startsWith('room and rest')) return words.separated;
    return has(run, 'rest') ? words.withinRest : words.within;
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
