import { type Html, html } from '../html.js';
import type { Page } from '../Page.js';
import { section, table, unbroken } from '../table.js';
import { texts } from '../texts.js';

const words = texts.digests;

/** Digests by which anybody can tell whether the raw data are those of this report. */
export function digests({ evaluation }: Page): Html {
  if (evaluation.runs.length === 0) return html``;
  const digest = (text: string) => html`<code>${text}</code>`;
  const rows = evaluation.runs.flatMap(({ run }) => [
    ...run.attachments.map((file) => [
      unbroken(run.id),
      file.originalName,
      String(file.bytes),
      digest(file.sha256),
    ]),
    [
      unbroken(run.id),
      words.protocol(run.protocol.name, run.protocol.version),
      '',
      digest(run.protocol.sha256),
    ],
  ]);
  return section(
    'digests',
    words.heading,
    html`<p class="quiet">${words.intro}</p>${table({ caption: words.caption, head: words.columns, rows, quietCaption: true })}`,
  );
}
