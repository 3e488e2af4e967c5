import { problem } from '../errors/index.js';
import type { ExportMapping } from './types.js';

/**
 * Bytes to text: UTF-8 with or without mark, UTF-16 (little end first), else Latin-1. Line ends become `\n`, so
 * that a line number is the number that an editor shows. An empty or a binary file is an error.
 */
export function decodeText(
  bytes: Uint8Array,
  file: string,
): { text: string; encoding: ExportMapping['encoding'] } {
  if (bytes.length === 0) throw problem('log-empty', {}, { file });
  if (bytes[0] === 0xfe && bytes[1] === 0xff)
    throw problem('log-encoding', { got: 'UTF-16, big end first' }, { file });
  const encoding = encodingOf(bytes);
  const label = encoding === 'latin1' ? 'windows-1252' : encoding;
  const raw = new TextDecoder(label).decode(bytes);
  const lines = raw.includes('\r') ? raw.replace(/\r\n?/g, '\n') : raw;
  // Old programs end a text with the sign 1A.
  const text = lines.endsWith('\u001a') ? lines.slice(0, -1) : lines;
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what tells a binary file
  const control = /[\u0000-\u0008\u000b\u000e-\u001f]/.exec(text);
  if (control) {
    const code = control[0].charCodeAt(0).toString(16).toUpperCase().padStart(2, '0');
    throw problem(
      'log-binary',
      { got: `the control character ${code} (hexadecimal)` },
      { file, line: lineAt(text, control.index) },
    );
  }
  if (!/\S/.test(text)) throw problem('log-empty', {}, { file });
  return { text, encoding };
}

function encodingOf(bytes: Uint8Array): ExportMapping['encoding'] {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (looksUtf16(bytes)) return 'utf-16le';
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return 'utf-8';
  } catch {
    return 'latin1';
  }
}

// Western text in UTF-16 has a zero in nearly every second byte and none in the others.
function looksUtf16(bytes: Uint8Array): boolean {
  const length = Math.min(bytes.length, 4096);
  let odd = 0;
  let even = 0;
  for (let i = 0; i < length; i++) {
    if (bytes[i] !== 0) continue;
    if (i % 2 === 0) even++;
    else odd++;
  }
  return even === 0 && odd > 0.35 * length;
}

function lineAt(text: string, index: number): number {
  let line = 1;
  for (let at = text.indexOf('\n'); at !== -1 && at < index; at = text.indexOf('\n', at + 1)) line++;
  return line;
}
