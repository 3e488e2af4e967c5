import { type Html, html } from '../html.js';
import type { Page } from '../Page.js';
import { section } from '../table.js';
import { texts } from '../texts.js';

/** What the report does not claim. */
export function closing(page: Page): Html {
  const words = texts.closing;
  return section(
    'closing',
    words.heading,
    html`${words.sentences.map((sentence) => html`<p>${sentence}</p>`)}<p class="quiet">${words.madeBy(page.version)}</p>`,
  );
}
