import { closeSync, existsSync, lstatSync, openSync, readSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, relative, resolve, sep } from 'node:path';
import { problem } from '../errors/index.js';
import { atomicWrite, isWorkbook } from '../workbook/index.js';

/** What is kept in a workbook: an output must never land on it. */
const RECORDS = ['workbook.yaml', 'instruments', 'heaters', 'protocols', 'mappings', 'runs', 'schemas'];

const HEAD_BYTES = 2000;

/** The workbook that a file would lie in, or null. */
function workbookAround(file: string): string | null {
  for (let at = dirname(file); ; at = dirname(at)) {
    if (isWorkbook(at)) return at;
    if (dirname(at) === at) return null;
  }
}

/** The whole path of a file that a person names; `~/` is the home folder. */
export function resolvePath(path: string): string {
  return resolve(path.replace(/^~(?=\/|$)/, process.env.HOME ?? homedir()));
}

/**
 * Writes what a person asked for to a file, whole or not at all. Refuses the records of a workbook, what is no plain
 * file, and a file that is there and was not made by this program; `ours` tells one that was by how it begins.
 */
export function writeOutput(
  path: string,
  content: string | Iterable<string>,
  key: string,
  ours: string | RegExp,
): void {
  const file = resolvePath(path);
  const around = workbookAround(file);
  if (around !== null && RECORDS.includes(relative(around, file).split(sep)[0] as string)) {
    throw problem('output-on-record', { file: path }, { key });
  }
  if (existsSync(file)) {
    if (!lstatSync(file).isFile()) throw problem('output-not-file', { file: path }, { key });
    const head = headOf(file);
    const isOurs = typeof ours === 'string' ? head.includes(ours) : ours.test(head);
    if (head !== '' && !isOurs) throw problem('output-taken', { file: path }, { key });
  }
  atomicWrite(file, content);
}

function headOf(file: string): string {
  const bytes = Buffer.alloc(HEAD_BYTES);
  const fd = openSync(file, 'r');
  try {
    return bytes.toString('utf8', 0, readSync(fd, bytes, 0, HEAD_BYTES, 0));
  } finally {
    closeSync(fd);
  }
}
