import { problem } from '../../errors/index.js';
import type { ExportMapping } from '../types.js';
import type { Piece } from './Piece.js';

const decoders = {
  'utf-8': new TextDecoder('utf-8'),
  'utf-16le': new TextDecoder('utf-8'),
  'utf-16be': new TextDecoder('utf-8'),
  latin1: new TextDecoder('windows-1252'),
};

/** The text of some lines, line ends as `\n` and none after the last line. A control character is an error. */
export function recordText(
  { bytes, isLast, to }: Pick<Piece, 'bytes' | 'isLast' | 'to'>,
  from: number,
  end: number,
  encoding: ExportMapping['encoding'],
  place: { readonly file: string; readonly line: number },
): string {
  const raw = decoders[encoding].decode(bytes.subarray(from, end));
  let text = raw.includes('\r') ? raw.replace(/\r\n?/g, '\n') : raw;
  if (text.endsWith('\n')) text = text.slice(0, -1);
  // Old programs end a text with the sign 1A.
  if (isLast && end === to && text.endsWith('\u001a')) text = text.slice(0, -1);
  refuseControl(text, place);
  return text;
}

/** Control characters are what tells a binary file. */
export function refuseControl(text: string, place: { readonly file: string; readonly line: number }): void {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: that is what is looked for
  const control = /[\u0000-\u0008\u000b\u000e-\u001f]/.exec(text);
  if (!control) return;
  const code = control[0].charCodeAt(0).toString(16).toUpperCase().padStart(2, '0');
  const before = text.slice(0, control.index).split('\n').length - 1;
  throw problem(
    'log-binary',
    { got: `the control character ${code} (hexadecimal)` },
    { ...place, line: place.line + before },
  );
}
