import type { Mutation } from './Mutation.js';
import { pick, whole } from './pick.js';
import { textOf } from './textOf.js';

const separators = [',', ';', '\t', '.', '"', ':', ' ', '-', '|', '\n', '/'];
const hostile = [
  '"',
  '9e99',
  '-',
  'OL',
  '999999999',
  '\n',
  ';;;',
  'x',
  '\0',
  '1e-300',
  '00:00:00',
  'NaN',
  '0x10',
  '=1+1',
  '-0',
  '\r',
  '\u00a0',
  '\u0000\u0001',
  '٣',
  '\ufeff',
  '1e999',
  '""',
  ',,',
  '1.2.3',
  '24:60:61',
  '2026-02-30',
  '١',
  'Infinity',
  '_'.repeat(300),
];

/** Bytes that flip, vanish or come in between, and texts that are cut off or recoded. */
export const byteKinds: Readonly<Record<string, Mutation>> = {
  'bytes flipped': ({ bytes }, random) => {
    const changed = bytes.slice();
    for (let i = whole(random, 4); i >= 0; i--)
      changed[whole(random, changed.length)]! ^= 1 << whole(random, 8);
    return changed;
  },
  'bytes cut': ({ bytes }, random) => {
    const at = whole(random, bytes.length);
    const count = 1 + whole(random, 8);
    return Uint8Array.from([...bytes.subarray(0, at), ...bytes.subarray(at + count)]);
  },
  truncated: ({ bytes }, random) => bytes.slice(0, whole(random, bytes.length)),
  'separators changed': (original, random) => {
    const { text, toBytes } = textOf(original);
    const present = separators.filter((sign) => text.includes(sign));
    return toBytes(text.replaceAll(pick(random, present), pick(random, ['', ...separators])));
  },
  'text inserted': ({ bytes }, random) => {
    const at = whole(random, bytes.length + 1);
    const inserted = new TextEncoder().encode(pick(random, hostile));
    return Uint8Array.from([...bytes.subarray(0, at), ...inserted, ...bytes.subarray(at)]);
  },
  'line ends mixed': (original, random) => {
    const { text, toBytes } = textOf(original);
    const other = text.includes('\r\n') ? ['\n', '\r'] : ['\r\n', '\r', '\n\r'];
    const share = random();
    return toBytes(text.replace(/\r\n|\n|\r/g, (end) => (random() < share ? pick(random, other) : end)));
  },
  'encodings mixed': (original, random) => {
    const { bytes } = original;
    const from = whole(random, bytes.length);
    const to = random() < 0.5 ? bytes.length : from + 1 + whole(random, 12);
    const part = Buffer.from(bytes.subarray(from, to)).toString('latin1');
    const recoded =
      random() < 0.4
        ? Buffer.from(part, 'utf16le')
        : Buffer.from(`${part}°é–`, pick(random, ['utf8', 'latin1']));
    return Uint8Array.from([...bytes.subarray(0, from), ...recoded, ...bytes.subarray(to)]);
  },
  'quotes opened': (original, random) => {
    const { text, toBytes } = textOf(original);
    const starts = [...text.matchAll(/(?<=^|[\n,;\t|])/g)].map(({ index }) => index);
    const at = pick(random, starts);
    return toBytes(`${text.slice(0, at)}"${text.slice(at)}`);
  },
};
