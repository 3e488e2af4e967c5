import type { RefusedRun } from '../../evaluation/index.js';
import { type Html, html } from '../html.js';
import type { Page } from '../Page.js';
import { section, table, unbroken } from '../table.js';
import { texts } from '../texts.js';

const words = texts.refused;

/** The runs that do not count, and why. */
export function refused(page: Page): Html {
  const list = page.evaluation.refused;
  if (list.length === 0) return section('not-counted', words.heading, html`<p>${words.none}</p>`);
  return section(
    'not-counted',
    words.heading,
    table({
      caption: words.caption,
      head: words.columns,
      rows: list.map(rowOf),
      wordColumns: [2],
      quietCaption: true,
    }),
  );
}

function rowOf({ run, heater, setting, reason, error }: RefusedRun) {
  const which = [heater, setting].filter((each) => each !== null).join(', ') || texts.notStated;
  const why = html`${reason}${error?.hint !== undefined && html`<br>${error.hint}`}${error === null && html` <em>(${words.unfinished})</em>`}`;
  return [unbroken(run), which, why];
}
