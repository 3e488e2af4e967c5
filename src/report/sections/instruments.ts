import { describeBasis, describeResolution, dueDate } from '../../instruments/index.js';
import type { Instrument } from '../../workbook/index.js';
import { measures } from '../../workbook/index.js';
import { exactQuantity } from '../format.js';
import { type Html, type HtmlValue, html } from '../html.js';
import type { Page } from '../Page.js';
import { section, table, unbroken } from '../table.js';
import { texts } from '../texts.js';

const words = texts.instruments;

/** Every instrument that a run was made with: what its errors are known from, and when it is due, in words. */
export function instruments(page: Page): Html {
  const { runs, day } = page.evaluation;
  const used = new Map<string, { instrument: Instrument; runs: number }>();
  for (const run of runs) {
    for (const instrument of Object.values(run.instruments)) {
      const known = used.get(instrument.id);
      if (known) known.runs += 1;
      else used.set(instrument.id, { instrument, runs: 1 });
    }
  }
  const list = [...used.values()];
  if (list.length === 0) return html``;
  const rows = list.map((each) => [
    html`${each.instrument.name}<br><span class="quiet">${words.kinds[each.instrument.kind]} ${each.instrument.id}, ${words.usedIn(each.runs)}</span>`,
    describeResolution(each.instrument),
    describeBasis(each.instrument),
    dueWords(each.instrument, day),
  ]);
  return section(
    'instruments',
    words.heading,
    html`${table({ caption: words.caption, head: words.columns, rows, wordColumns: [2], quietCaption: true })}${list.map(({ instrument }) => points(instrument))}`,
  );
}

function dueWords(instrument: Instrument, day: Date): HtmlValue {
  const due = dueDate(instrument, day);
  return due === null ? words.noDue : html`${due.words} ${unbroken(`(${due.due})`)}`;
}

/** The certificate as it was entered: corrections at points with their uncertainty. */
function points(instrument: Instrument): Html | false {
  const certificate = instrument.certificate;
  if (!certificate) return false;
  const { range, error } = measures[instrument.kind];
  const [kind, unit] = instrument.kind === 'wattmeter' ? (['ratio', '%'] as const) : error;
  const rows = certificate.points.map((point) => [
    exactQuantity(point.at, range[0], range[1]),
    exactQuantity(point.correction, kind, unit),
    exactQuantity(point.expandedUncertainty, kind, unit),
  ]);
  const caption = words.points(`${instrument.name} (${instrument.id})`);
  return html`${table({ caption, head: words.pointColumns, rows, figures: true })}<p class="quiet">${words.coverageFactor(String(certificate.coverageFactor))}</p>`;
}
