import { type Html, html } from '../html.js';
import { texts } from '../texts.js';

/** Links to the sections that the page has. */
export function contents(body: readonly Html[]): Html {
  const entries = body.flatMap(({ text }) => {
    const found = /^<section id="([a-z-]+)"/.exec(text);
    const id = found?.[1];
    return id !== undefined && id in headings ? [{ id, heading: headings[id as keyof typeof headings] }] : [];
  });
  return html`<nav aria-label="${texts.contents}"><ul>${entries.map(({ id, heading }) => html`<li><a href="#${id}">${heading}</a></li>`)}</ul></nav>
`;
}

const headings = {
  settings: texts.summary.heading,
  balance: texts.balance.heading,
  courses: texts.courses.heading,
  curves: texts.curves.heading,
  doubts: texts.budget.heading,
  repeatability: texts.repeatability.heading,
  instruments: texts.instruments.heading,
  readings: texts.readings.heading,
  conditions: texts.conditions.heading,
  'not-counted': texts.refused.heading,
  warnings: texts.warnings.heading,
  cautions: texts.cautions.heading,
  method: texts.method.heading,
  digests: texts.digests.heading,
} as const;
