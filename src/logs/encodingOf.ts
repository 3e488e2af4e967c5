import { isUtf8 } from 'node:buffer';
import type { ExportMapping } from './types.js';

/** UTF-8 with or without mark, UTF-16 either way round, else Latin-1. */
export function encodingOf(bytes: Uint8Array): ExportMapping['encoding'] {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  return wideEncoding(bytes) ?? (isUtf8(bytes) ? 'utf-8' : 'latin1');
}

// Western text in UTF-16 has a zero in nearly every second byte and none in the others.
function wideEncoding(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  const length = Math.min(bytes.length, 4096);
  let odd = 0;
  let even = 0;
  for (let i = 0; i < length; i++) {
    if (bytes[i] !== 0) continue;
    if (i % 2 === 0) even++;
    else odd++;
  }
  if (even === 0 && odd > 0.35 * length) return 'utf-16le';
  return odd === 0 && even > 0.35 * length ? 'utf-16be' : null;
}
