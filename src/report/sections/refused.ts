import type { Figure, RefusedRun } from '../../evaluation/index.js';
import { halfWidth, percentInterval, percentResult } from '../format.js';
import { type Html, html } from '../html.js';
import { figureName, type Page } from '../Page.js';
import { section, table, unbroken } from '../table.js';
import { texts } from '../texts.js';

const words = texts.refused;

/** The runs that do not count, why, and what the figures would be with those that a person took out. */
export function refused(page: Page): Html {
  const { refused: list, figures } = page.evaluation;
  if (list.length === 0) return section('not-counted', words.heading, html`<p>${words.none}</p>`);
  const changed = figures.filter((figure) => figure.withExcluded !== null);
  return section(
    'not-counted',
    words.heading,
    html`${table({ caption: words.caption, head: words.columns, rows: list.map(rowOf), wordColumns: [2], quietCaption: true })}${
      changed.length > 0 &&
      table({
        caption: words.withCaption,
        head: words.withColumns,
        rows: changed.map((figure) => withRow(figure, page)),
        figures: true,
        wordColumns: [4],
      })
    }`,
  );
}

function rowOf({ run, heater, setting, kind, reason, error }: RefusedRun) {
  const which = [heater, setting].filter((each) => each !== null).join(', ') || texts.notStated;
  const why = html`${reason}${error?.hint !== undefined && html`<br>${error.hint}`} <em>(${words.kinds[kind]})</em>`;
  return [unbroken(run), which, why];
}

function withRow(figure: Figure, { evaluation }: Page) {
  const whole = figure.withExcluded;
  const hands = new Map(evaluation.workbook.settings.hands.map(({ id, name }) => [id, name]));
  const excluded = whole?.runs.map(({ run, exclusion }) => {
    const found = evaluation.runs.find((each) => each.run.id === run)?.efficiency[figure.definition];
    const share = found ? percentResult(found.value, found.expandedUncertainty) : texts.notMeasured;
    const hand = hands.get(exclusion.hand) ?? exclusion.hand;
    return words.excluded(run, share, hand, exclusion.resultSeen ? words.seen : words.unseen);
  });
  return [
    figureName(figure, evaluation.figures),
    percentResult(figure.efficiency.value, halfWidth(figure.efficiency.interval)),
    whole && percentResult(whole.value, halfWidth(whole.interval)),
    whole && percentInterval(whole.prediction),
    excluded?.join('; '),
  ];
}
