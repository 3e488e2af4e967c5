import { type Html, html } from '../html.js';
import { figureName, type Page } from '../Page.js';
import { section } from '../table.js';
import { texts } from '../texts.js';

const words = texts.warnings;

/** All warnings, each sentence once, with what it is about. */
export function warnings({ evaluation }: Page): Html {
  const about = new Map<string, string[]>();
  const put = (sentence: string, where: string | null) => {
    const known = about.get(sentence) ?? [];
    about.set(sentence, known);
    if (where !== null && !known.includes(where)) known.push(where);
  };
  for (const figure of evaluation.figures) {
    for (const sentence of figure.warnings) put(sentence, figureName(figure, evaluation.figures));
  }
  for (const run of evaluation.runs) for (const sentence of run.warnings) put(sentence, run.run.id);
  for (const sentence of evaluation.warnings) put(sentence, null);
  const items = [...about].map(
    ([sentence, where]) =>
      html`<li>${sentence}${where.length > 0 && html` <span class="quiet">${words.about(where.join(', '))}.</span>`}</li>`,
  );
  return section(
    'warnings',
    words.heading,
    items.length === 0 ? html`<p>${words.none}</p>` : html`<ul>${items}</ul>`,
  );
}
