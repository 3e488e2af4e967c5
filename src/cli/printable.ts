/** All control characters but line feed and tab, and the marks that turn the direction of writing. */
const unprintable = /[^\P{Cc}\n\t]|[\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu;

/**
 * Text as it may go to a terminal: control characters, escape sequences and marks that turn the direction of writing
 * are shown as a box. Names, notes and files come from anywhere.
 */
export function printable(text: string): string {
  return text.replace(unprintable, '\u25a1');
}
