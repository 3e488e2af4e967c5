import { accessSync, constants, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { resolve } from 'node:path';
import { type HeatledgerError, problem } from '../errors/index.js';

/**
 * The whole path of a file that can be read: `~/` is the home folder. A pipe or a device would never end, so only
 * a plain file will do. Errors: `file-missing`, `file-unreadable`.
 *
 * @example
 * exportPath('/nowhere/meter.csv') // throws 'file-missing'
 * exportPath('/') // throws 'file-unreadable'
 */
export function exportPath(path: string, base = process.cwd()): string {
  const file = resolve(base, path.replace(/^~(?=\/|$)/, process.env.HOME ?? homedir()));
  try {
    const found = statSync(file);
    if (found.isDirectory()) throw problem('file-unreadable', { reason: 'it is a folder' }, { file: path });
    if (!found.isFile()) throw problem('file-unreadable', { reason: 'it is no plain file' }, { file: path });
    accessSync(file, constants.R_OK);
  } catch (error) {
    throw readProblem(error, path);
  }
  return file;
}

/**
 * What keeps a file from being read, in words; an error that is one of ours already stays as it is.
 *
 * @example
 * readProblem({ code: 'EACCES' }, 'meter.csv').message
 * // => 'The file can\'t be read: there is no right to read it.'
 */
export function readProblem(error: unknown, path: string): HeatledgerError {
  const { code, message } = error as NodeJS.ErrnoException;
  if (code === 'ENOENT' || code === 'ENOTDIR') return problem('file-missing', { file: path }, { file: path });
  if (!/^E[A-Z]+$/.test(code ?? '') && code !== 'ERR_FS_FILE_TOO_LARGE') return error as HeatledgerError;
  const reason = code === 'EACCES' || code === 'EPERM' ? 'there is no right to read it' : message;
  return problem('file-unreadable', { reason }, { file: path });
}
