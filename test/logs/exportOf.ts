import { readFileSync } from 'node:fs';
import { HeatledgerError } from '../../src/errors/index.js';
import { type Log, type ReadOptions, readExport } from '../../src/logs/index.js';

/** The bytes of a file of the corpus. */
export function corpus(name: string): Uint8Array {
  return readFileSync(new URL(`./corpus/${name}`, import.meta.url));
}

/** Reads a text as an export. */
export function logOf(text: string, options: ReadOptions = {}): Log {
  return readExport(new TextEncoder().encode(text), { fileName: 'test.csv', ...options });
}

/** The error of an action; fails where it throws nothing or something that is no error of ours. */
export function errorOf(action: () => unknown): HeatledgerError {
  try {
    action();
  } catch (error) {
    if (error instanceof HeatledgerError) return error;
    throw error;
  }
  throw new Error('nothing was thrown');
}

/** A log of power by rows of time and watts. */
export function powerLog(
  rows: readonly (readonly [timeS: number, watts: number | string])[],
  header = 'P [W]',
): Log {
  return logOf(`t [s],${header}\n${rows.map((row) => row.join(',')).join('\n')}\n`);
}
