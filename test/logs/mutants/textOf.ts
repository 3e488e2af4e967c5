import type { Original } from './Original.js';

/** Where a text came from, and how it goes back to bytes. */
export interface TextForm {
  readonly text: string;
  readonly toBytes: (changed: string) => Uint8Array;
}

/** An export as a text in which every sign is one byte, or two where the export has two a sign. */
export function textOf({ bytes, mapping }: Pick<Original, 'bytes' | 'mapping'>): TextForm {
  const { encoding } = mapping;
  if (encoding === 'utf-8' || encoding === 'latin1')
    return {
      text: Buffer.from(bytes).toString('latin1'),
      toBytes: (changed) => Uint8Array.from(Buffer.from(changed, 'latin1')),
    };
  const swap = (from: Uint8Array) =>
    encoding === 'utf-16be' ? Buffer.from(from).swap16() : Buffer.from(from);
  const even = bytes.subarray(0, bytes.length - (bytes.length % 2));
  return {
    text: swap(even).toString('utf16le'),
    toBytes: (changed) => Uint8Array.from(swap(Buffer.from(changed, 'utf16le'))),
  };
}
