import { type Html, html } from '../html.js';
import { section } from '../table.js';
import { texts } from '../texts.js';

const words = texts.method;

/** Definitions and formulas in words, and where they come from. */
export function method(): Html {
  return section(
    'method',
    words.heading,
    html`<dl>${words.terms.map(([term, meaning]) => html`<div><dt>${term}</dt><dd>${meaning}</dd></div>`)}</dl>
<h3>${words.sourcesTitle}</h3><ul>${words.sources.map((source) => html`<li>${source}</li>`)}</ul>`,
  );
}
