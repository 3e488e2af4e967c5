/** Breaks a long line at blanks, keeping its indent. */
export function wrapped(line: string, columns: number): string {
  const width = Math.max(30, Math.min(columns, 100) - 1);
  if (line.length <= width) return line;
  const lead = /^\s*(- )?/.exec(line)?.[0] ?? '';
  const out: string[] = [];
  let current = lead;
  for (const word of line.slice(lead.length).split(/ +/)) {
    const bare = current.trim() === '' || current === lead;
    if (!bare && current.length + 1 + word.length > width) {
      out.push(current);
      current = ' '.repeat(lead.length) + word;
    } else current = bare ? current + word : `${current} ${word}`;
  }
  out.push(current);
  return out.join('\n');
}
