import { type Html, type HtmlValue, html, trusted } from './html.js';

export interface TableParts {
  /** Also the name of the scrolling box; unlike that of any other table of the page. */
  readonly caption: string;
  readonly head: readonly HtmlValue[];
  /** The first cell of a row is its head. */
  readonly rows: readonly (readonly HtmlValue[])[];
  /** Figures stand to the right, under each other. */
  readonly figures?: boolean;
  /** Columns of words among the figures, counted from 0; they stand to the left and may wrap. */
  readonly wordColumns?: readonly number[];
  /** The caption is read out, not shown: a heading says the same. */
  readonly quietCaption?: boolean;
}

/** Paper holds about this many rows on what is left of a page; a table of up to so many is kept in one piece. */
const SHORT_TABLE = 12;
/** A word longer than this may be broken anywhere: a digest, or a name without blanks. */
const LONG_WORD = 24;

/** A table that scrolls inside its own box where the screen is narrow, and can be reached with the keyboard there. */
export function table({ caption, head, rows, figures, wordColumns = [], quietCaption }: TableParts): Html {
  const cell = (tag: 'th' | 'td', scope: string, column: number, value: HtmlValue) => {
    const content = html`${value}`;
    const classes = [wordColumns.includes(column) && 'words', hasLongWord(content) && 'long'].filter(Boolean);
    return trusted(
      `<${tag}${scope && ` scope="${scope}"`}${classes.length > 0 ? ` class="${classes.join(' ')}"` : ''}>${content}</${tag}>`,
    );
  };
  const line = (row: readonly HtmlValue[]) =>
    html`<tr>${row.map((value, i) => cell(i === 0 ? 'th' : 'td', i === 0 ? 'row' : '', i, value))}</tr>
`;
  // The caption that is seen stands outside of the box, where it cannot scroll away.
  return html`<div class="tabled${rows.length <= SHORT_TABLE && ' short'}">${!quietCaption && html`<p class="caption" aria-hidden="true">${caption}</p>`}<div class="box" role="region" aria-label="${caption}" tabindex="0"><table${figures && html` class="figures"`}>
<caption class="unseen">${caption}</caption>
<thead><tr>${head.map((value, i) => cell('th', 'col', i, value))}</tr></thead>
<tbody>${rows.map(line)}</tbody></table></div></div>`;
}

function hasLongWord({ text }: Html): boolean {
  return text
    .replace(/<[^<>]*>/g, '')
    .split(/\s+/)
    .some((word) => word.length > LONG_WORD);
}

/** An id or a date that is not broken between two lines unless it is very long. */
export function unbroken(text: string): HtmlValue {
  return [...text].length <= 28 ? html`<span class="unbroken">${text}</span>` : text;
}

/** A table that stands folded behind a chart. */
export function tableBehind(summary: string, parts: TableParts): Html {
  return html`<details class="behind"><summary>${summary}</summary>${table(parts)}</details>`;
}

/** A section of the page with its heading at the side. */
export function section(id: string, heading: string, body: HtmlValue): Html {
  return html`<section id="${id}" aria-labelledby="${id}-h"><h2 id="${id}-h">${heading}</h2><div class="body">${body}</div></section>
`;
}
