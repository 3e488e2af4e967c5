import { closeSync, fstatSync, openSync, readFileSync } from 'node:fs';
import { HeatledgerError, problem } from '../../errors/index.js';
import { readExport } from '../readExport.js';
import type { Log } from '../types.js';
import { Irregular } from './Irregular.js';
import type { LogFile } from './LogFile.js';
import type { OpenOptions } from './OpenOptions.js';
import { scanFile } from './scanFile.js';

const smallBytes = 8 << 20;

/**
 * Opens the CSV export of a wattmeter or thermometer logger on disk. A small one is read into memory, as `readExport`
 * does; a large one is read once, summed up in blocks, and stays on disk, so that it takes the same memory whatever
 * its length. Both give the same energies, edges and phases. Where a large file can be judged only with all rows at hand (rows out of
 * order, dates that the first quarter of a megabyte leaves open) it is read into memory after all.
 *
 * Errors: the `log-...` codes, with file, line and value; `file-missing` and `file-unreadable`.
 *
 * @example
 * const path = `${emptyFolder()}/meter.csv`;
 * writeFileSync(path, 't [s],P [W]\n0,900\n1800,900\n3600,900\n');
 * const log = await openExport(path);
 * logSummary(log).energyWh // => 900
 */
export async function openExport(path: string, options: OpenOptions = {}): Promise<Log | LogFile> {
  const reading = { fileName: path, ...options };
  const fd = openFile(path);
  try {
    if (fstatSync(fd).size > (options.inMemoryBytes ?? smallBytes)) {
      const file = await readLarge(fd, path, reading);
      if (file) return file;
    }
  } finally {
    closeSync(fd);
  }
  return readExport(readWhole(path), reading);
}

function openFile(path: string): number {
  try {
    const fd = openSync(path, 'r');
    const stat = fstatSync(fd);
    if (stat.isFile()) return fd;
    closeSync(fd);
    const reason = stat.isDirectory() ? 'it is a folder' : 'it is no plain file';
    throw problem('file-unreadable', { reason }, { file: path });
  } catch (error) {
    throw fileProblem(error, path);
  }
}

function readWhole(path: string): Uint8Array {
  try {
    return readFileSync(path);
  } catch (error) {
    throw fileProblem(error, path);
  }
}

function fileProblem(error: unknown, path: string): unknown {
  if (error instanceof HeatledgerError) return error;
  const { code, message } = error as NodeJS.ErrnoException;
  if (code === 'ENOENT') return problem('file-missing', { file: path }, { file: path });
  return problem('file-unreadable', { reason: message }, { file: path });
}

/** `null` where the file must be read into memory. */
async function readLarge(fd: number, path: string, options: OpenOptions): Promise<LogFile | null> {
  try {
    return await scanFile(fd, path, options);
  } catch (error) {
    if (error instanceof Irregular) return null;
    throw error;
  }
}
