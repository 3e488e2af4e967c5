import type { Mutation } from './Mutation.js';
import { type Random, whole } from './pick.js';
import { textOf } from './textOf.js';

/** Lines that are lost, swapped, doubled or moved. */
export const lineKinds: Readonly<Record<string, Mutation>> = {
  'lines cut': onLines(
    (lines, random) => void lines.splice(whole(random, lines.length), 1 + whole(random, 3)),
  ),
  'block cut': onLines((lines, random) => {
    const count = 4 + whole(random, Math.max(1, 0.4 * lines.length - 3));
    lines.splice(whole(random, lines.length), count);
  }),
  'lines swapped': onLines((lines, random) => {
    const [a, b] = [whole(random, lines.length), whole(random, lines.length)];
    [lines[a], lines[b]] = [lines[b]!, lines[a]!];
  }),
  'line doubled': onLines((lines, random) => {
    const at = whole(random, lines.length);
    lines.splice(at, 0, lines[at]!);
  }),
  'line copied elsewhere': onLines(
    (lines, random) => void lines.splice(whole(random, lines.length), 0, lines[whole(random, lines.length)]!),
  ),
  'line moved': onLines((lines, random) => {
    const [line] = lines.splice(whole(random, lines.length), 1);
    lines.splice(whole(random, lines.length + 1), 0, line!);
  }),
};

function onLines(change: (lines: string[], random: Random) => void): Mutation {
  return (original, random) => {
    const { text, toBytes } = textOf(original);
    // Each line keeps the sign that ends it.
    const lines = text.match(/[^\n\r]*(?:\r\n|\n|\r)|[^\n\r]+$/g) ?? [];
    change(lines, random);
    return toBytes(lines.join(''));
  };
}
