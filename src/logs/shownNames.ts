import { shownText } from './shownText.js';

interface Named {
  readonly header: string;
  readonly index: number;
}

const most = 10;

/** What a message calls a column: its header in quotation marks, or its number where it has none. */
export function shownName({ header, index }: Named): string {
  return header ? `"${shownText(header)}"` : `column ${index + 1}`;
}

/** The names of columns for a message: the first ten, and how many more there are; numbers where names repeat. */
export function shownNames(columns: readonly Named[]): string {
  const names = columns.slice(0, most).map((column) => distinctName(column, columns.slice(0, most)));
  return columns.length > most ? `${names.join(', ')} and ${columns.length - most} more` : names.join(', ');
}

/** The name of a column beside others, with its number where another has the same name. */
export function distinctName(column: Named, others: readonly Named[]): string {
  const name = shownName(column);
  const twin = others.some((other) => other.index !== column.index && shownName(other) === name);
  return twin ? `${name} (column ${column.index + 1})` : name;
}
