import { readdirSync } from 'node:fs';
import { type ExportMapping, type ReadOptions, readExport } from '../../../src/logs/index.js';
import { corpus } from '../exportOf.js';
import { calendarForms } from '../readings/calendarForms.js';
import { clockForms } from '../readings/clockForms.js';
import type { Expected } from '../readings/Expected.js';
import { elapsedForms } from '../readings/elapsedForms.js';
import { numbersAndUnits } from '../readings/numbersAndUnits.js';
import { quotedForms } from '../readings/quotedForms.js';
import { rowTroubles } from '../readings/rowTroubles.js';
import { textForms } from '../readings/textForms.js';
import { words } from '../readings/words.js';
import { fullerExports } from './fullerExports.js';
import { type Outcome, outcomeOf } from './outcome.js';

/** A clean export, what its reading comes to, and what the mutations need to know of its form. */
export interface Original {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly options: ReadOptions;
  readonly fuller: boolean;
  /** The warnings of its reading, written by hand from the file. */
  readonly warnings: readonly RegExp[];
  readonly mapping: ExportMapping;
  readonly clean: Outcome;
}

const readings: Record<string, Expected> = {
  ...textForms,
  ...quotedForms,
  ...numbersAndUnits,
  ...words,
  ...elapsedForms,
  ...clockForms,
  ...calendarForms,
  ...rowTroubles,
};

function original(
  name: string,
  bytes: Uint8Array,
  options: ReadOptions,
  fuller: boolean,
  warnings: readonly RegExp[],
): Original {
  const stated = { fileName: 'mutant.csv', ...options };
  const log = readExport(bytes, stated);
  const { mapping } = log;
  return { name, bytes, options: stated, fuller, warnings, mapping, clean: outcomeOf(log) };
}

/** Every file of the corpus, and the fuller exports before them. */
export const originals: readonly Original[] = [
  ...fullerExports.map(({ name, text, options, warnings }) =>
    original(name, new TextEncoder().encode(text), options, true, warnings),
  ),
  ...readdirSync(new URL('../corpus/', import.meta.url))
    .sort()
    .map((name) => {
      const { options = {}, warnings = [] } = readings[name] ?? {};
      return original(name, corpus(name), options, false, warnings);
    }),
];
