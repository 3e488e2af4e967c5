import { problem } from '../../errors/index.js';
import { encodingOf } from '../encodingOf.js';
import type { ExportMapping } from '../types.js';
import { recordText } from './recordText.js';

const headLength = 1 << 19;
const lineFeed = 10;
const carriageReturn = 13;

/** An export as bytes of ASCII, UTF-8 or Latin-1 with line feeds, and the text of its beginning. */
export interface ExportBytes {
  readonly bytes: Uint8Array;
  readonly encoding: ExportMapping['encoding'];
  /** Whole lines from the start, all of them where the export is short. */
  readonly head: string;
  readonly endsWithLineFeed: boolean;
}

/** Brings an export to a form in which it can be cut into rows. An empty or a binary file is an error. */
export function exportBytes(raw: Uint8Array, file: string): ExportBytes {
  if (raw.length === 0) throw problem('log-empty', {}, { file });
  const encoding = encodingOf(raw);
  const bytes = withLineFeeds(inOneByteUnits(raw, encoding));
  const head = headText(bytes, encoding, file);
  if (head.bytes === bytes.length && !/\S/.test(head.text)) throw problem('log-empty', {}, { file });
  return { bytes, encoding, head: head.text, endsWithLineFeed: endsWithLineFeed(bytes) };
}

/** Whether the last line is ended; the sign 1A that old programs put after it doesn't count. */
export function endsWithLineFeed(bytes: Uint8Array): boolean {
  const last = bytes[bytes.length - 1] === 0x1a ? bytes.length - 2 : bytes.length - 1;
  return bytes[last] === lineFeed || bytes[last] === carriageReturn;
}

/** The text of the first whole lines; all of it where it is short or no line ends within the first half megabyte. */
export function headText(
  bytes: Uint8Array,
  encoding: ExportMapping['encoding'],
  file: string,
): { readonly text: string; readonly bytes: number } {
  const cut = bytes.length > headLength ? bytes.lastIndexOf(lineFeed, headLength) + 1 : 0;
  const to = cut > 0 ? cut : bytes.length;
  const isLast = to === bytes.length;
  return { text: recordText({ bytes, isLast, to }, 0, to, encoding, { file, line: 1 }), bytes: to };
}

/** Where a line begins, counted from 1. */
export function offsetOfLine(bytes: Uint8Array, line: number): number {
  let at = 0;
  for (let i = 1; i < line; i++) {
    const end = bytes.indexOf(lineFeed, at);
    if (end < 0) return bytes.length;
    at = end + 1;
  }
  return at;
}

function inOneByteUnits(raw: Uint8Array, encoding: ExportMapping['encoding']): Uint8Array {
  if (encoding === 'utf-8' || encoding === 'latin1') return raw;
  return new TextEncoder().encode(new TextDecoder(encoding).decode(raw));
}

// Line ends of a single carriage return, in all of the file or at its beginning, are made line feeds.
function withLineFeeds(bytes: Uint8Array): Uint8Array {
  let changed: Uint8Array | null = null;
  const lone = (at: number) => at >= 0 && bytes[at + 1] !== lineFeed;
  for (let at = bytes.indexOf(carriageReturn); at >= 0; at = bytes.indexOf(carriageReturn, at + 1)) {
    // The first line tells, as a rule; what comes otherwise later is found row by row.
    if (!lone(at)) {
      if (changed === null) return bytes;
      continue;
    }
    changed ??= Uint8Array.from(bytes);
    changed[at] = lineFeed;
  }
  return changed ?? bytes;
}
