import { existsSync, lstatSync, readFileSync } from 'node:fs';
import { dirname, relative, resolve, sep } from 'node:path';
import { problem } from '../errors/index.js';
import { atomicWrite, isWorkbook } from '../workbook/index.js';

/** What is kept in a workbook: an output must never land on it. */
const RECORDS = ['workbook.yaml', 'instruments', 'heaters', 'protocols', 'runs', 'schemas'];

/** The workbook that a file would lie in, or null. */
function workbookAround(file: string): string | null {
  for (let at = dirname(file); ; at = dirname(at)) {
    if (isWorkbook(at)) return at;
    if (dirname(at) === at) return null;
  }
}

/**
 * Writes what a person asked for to a file. Refuses the records of a workbook, what is no plain file, and a file that
 * is there and was not made by this program; `ours` tells one that was by how it begins.
 */
export function writeOutput(path: string, content: string, key: string, ours: string): void {
  const file = resolve(path);
  const around = workbookAround(file);
  if (around !== null && RECORDS.includes(relative(around, file).split(sep)[0] as string)) {
    throw problem('output-on-record', { file: path }, { key });
  }
  if (existsSync(file)) {
    if (!lstatSync(file).isFile()) throw problem('output-not-file', { file: path }, { key });
    const head = readFileSync(file, 'utf8').slice(0, 2000);
    if (head !== '' && !head.includes(ours)) throw problem('output-taken', { file: path }, { key });
  }
  atomicWrite(file, content);
}
