/** Text that is HTML already. Only `html` and `trusted` make it. */
export class Html {
  constructor(readonly text: string) {}
  toString(): string {
    return this.text;
  }
}

/** What may stand in a template; all but `Html` is escaped. */
export type HtmlValue = Html | string | number | null | undefined | false | readonly HtmlValue[];

const named: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/**
 * Control characters, signs that turn the direction of what follows, and halves of surrogate pairs: they would be
 * unseen, make the text around them lie, or change when the file is written.
 */
const unshowable =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: finding control characters is the purpose
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** Text with a visible sign in the place of every character that cannot be shown. */
export function showable(text: string): string {
  return text.replace(unshowable, '\ufffd');
}

/** Text of a user as HTML: safe between tags and inside a quoted attribute. */
export function escapeHtml(text: string): string {
  return showable(text).replace(/[&<>"']/g, (sign) => named[sign] as string);
}

/** Marks text of our own, such as a style sheet or a finished SVG, as HTML. Never give it text of a user. */
export function trusted(text: string): Html {
  return new Html(text);
}

function written(value: HtmlValue): string {
  if (value === null || value === undefined || value === false) return '';
  if (value instanceof Html) return value.text;
  if (typeof value === 'object') return value.map(written).join('');
  return escapeHtml(String(value));
}

/** A template that escapes every value by default. Attributes must be written in double quotes. */
export function html(parts: TemplateStringsArray, ...values: readonly HtmlValue[]): Html {
  return new Html(parts.reduce((text, part, i) => text + written(values[i - 1]) + part));
}
