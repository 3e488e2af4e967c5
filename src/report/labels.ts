/**
 * Pixels in which a text of 11 px fits in any of the usual fonts of a system: upright letters are wider in some than
 * in others, so the widths are those of a wide one, and signs of other scripts count as square.
 */
export function textWidth(text: string): number {
  return [...text].reduce((sum, sign) => sum + signWidth(sign), 0);
}

function signWidth(sign: string): number {
  if (/[ .,:;|!'ijlfrt()[\]\u00a0-]/.test(sign)) return 4.8;
  if (/[mwMW@%&—…]/.test(sign)) return 10.8;
  if (/[a-z0-9\u2212]/.test(sign)) return 7;
  return (sign.codePointAt(0) as number) < 0x500 ? 9 : 14;
}

/** Text cut at its end so that it fits in so many pixels, never inside a character. */
export function shorten(text: string, pixels: number): string {
  return cut(text, pixels, (signs, kept) => `${signs.slice(0, kept).join('')}…`);
}

/** An id cut in its middle: ids of runs differ at the end. */
export function shortenId(id: string, pixels: number): string {
  return cut(id, pixels, (signs, kept) => {
    const tail = Math.floor(kept / 2);
    return `${signs.slice(0, kept - tail).join('')}…${signs.slice(signs.length - tail).join('')}`;
  });
}

function cut(text: string, pixels: number, keep: (signs: string[], kept: number) => string): string {
  // Beyond a few hundred characters no label fits; counting them all would be slow on endless text.
  const signs = [...text];
  if (signs.length < 400 && textWidth(text) <= pixels) return text;
  for (let kept = Math.min(signs.length - 1, 400); kept > 1; kept--) {
    const shorter = keep(signs, kept);
    if (textWidth(shorter) <= pixels) return shorter;
  }
  return keep(signs, 1);
}
