import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { ReadOptions } from '../../src/logs/index.js';
import { calendarForms } from '../logs/readings/calendarForms.js';
import { clockForms } from '../logs/readings/clockForms.js';
import { elapsedForms } from '../logs/readings/elapsedForms.js';
import type { Expected } from '../logs/readings/Expected.js';
import { numbersAndUnits } from '../logs/readings/numbersAndUnits.js';
import { quotedForms } from '../logs/readings/quotedForms.js';
import { rowTroubles } from '../logs/readings/rowTroubles.js';
import { textForms } from '../logs/readings/textForms.js';
import { words } from '../logs/readings/words.js';
import { top } from './folders.js';

const folder = join(top, 'test/logs/corpus');

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

/** A file of the corpus and what must be stated to read it. */
export interface CorpusFile {
  readonly name: string;
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly options: ReadOptions;
}

/** Every file of the corpus, in order of the names. */
export const corpusFiles: readonly CorpusFile[] = readdirSync(folder)
  .filter((name) => name.endsWith('.csv'))
  .sort()
  .map((name) => {
    const path = join(folder, name);
    return { name, path, bytes: readFileSync(path), options: readings[name]?.options ?? {} };
  });

/** What is stated to the reader, as a command line states it. */
export function lineOf({
  zone,
  timeForm,
  delimiter,
  decimal,
  intervalS,
  columns,
  units,
}: ReadOptions): string[] {
  const pairs = (option: string, group: object = {}) =>
    Object.entries(group).flatMap(([role, value]) => [option, `${role}=${value}`]);
  return [
    ...(zone === undefined ? [] : ['--zone', zone]),
    ...(timeForm === undefined ? [] : ['--time-form', timeForm]),
    ...(delimiter === undefined ? [] : ['--delimiter', delimiter]),
    ...(decimal === undefined ? [] : ['--decimal', decimal]),
    ...(intervalS === undefined ? [] : ['--interval', `${intervalS}s`]),
    ...pairs('--column', columns),
    ...pairs('--unit', units),
  ];
}
