import { type Html, html } from '../html.js';
import type { Page } from '../Page.js';
import { section } from '../table.js';
import { texts } from '../texts.js';

const words = texts.cautions;

/** The cautions of every protocol that was used, and those for whoever repeats the test or builds on it. */
export function cautions({ evaluation }: Page): Html {
  const protocols = new Map(
    evaluation.runs.map(({ protocol }) => [`${protocol.name} ${protocol.version}`, protocol]),
  );
  const list = (items: readonly string[]) => html`<ul>${items.map((item) => html`<li>${item}</li>`)}</ul>`;
  return section(
    'cautions',
    words.heading,
    html`${[...protocols.values()].map((protocol) => html`<h3>${words.ofProtocol(protocol.title)}</h3>${list(protocol.cautions)}`)}
<h3>${words.general}</h3>${list(words.list)}`,
  );
}
