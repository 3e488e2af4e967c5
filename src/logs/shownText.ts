const longest = 60;

/** A header or cell as a sentence shows it: on one line, and cut where it is of monstrous length. */
export function shownText(text: string): string {
  const cut = text
    .slice(0, 4 * longest)
    .replace(/\s+/g, ' ')
    .trim();
  return cut.length > longest || text.length > 4 * longest ? `${cut.slice(0, longest - 3)}...` : cut;
}
