const decoder = new TextDecoder('windows-1252');

/** The text of some bytes, sign for sign: what is compared with it is ASCII. */
export function cellText(bytes: Uint8Array, from: number, to: number): string {
  return decoder.decode(bytes.subarray(from, to));
}
