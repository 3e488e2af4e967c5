import type { Mutation } from './Mutation.js';
import type { Original } from './Original.js';
import type { Random } from './pick.js';
import { textOf } from './textOf.js';

/** The cells of an export, cut at its delimiter and nothing else. */
export interface Cells {
  /** Cells by line; a data line has as many as there are columns. */
  readonly lines: string[][];
  /** Which lines are data. */
  readonly data: readonly number[];
  /** Numbers of the columns that hold a quantity. */
  readonly values: readonly number[];
  readonly original: Original;
}

/** A mutation of cells; one that says `false` has found nothing to change. */
export function onCells(change: (cells: Cells, random: Random) => boolean | undefined): Mutation {
  return (original, random) => {
    const { delimiter, columns, firstDataLine } = original.mapping;
    const { text, toBytes } = textOf(original);
    const [newline = '\n'] = /\r\n|\n|\r/.exec(text) ?? [];
    const lines = text.split(newline).map((line) => line.split(delimiter));
    const data = [...lines.keys()].filter(
      (line) => line >= firstDataLine - 1 && lines[line]!.length === columns.length,
    );
    const values = columns.flatMap(({ role, index }) => (/^(ignored|time|date)$/.test(role) ? [] : [index]));
    if (data.length === 0 || change({ lines, data, values, original }, random) === false) return null;
    return toBytes(lines.map((cells) => cells.join(delimiter)).join(newline));
  };
}
