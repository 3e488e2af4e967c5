import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { checkId } from './ids.js';

/** Where everything of a workbook lies. */
export const paths = {
  settings: (dir: string) => join(dir, 'workbook.yaml'),
  schemas: (dir: string) => join(dir, 'schemas'),
  instruments: (dir: string) => join(dir, 'instruments'),
  heaters: (dir: string) => join(dir, 'heaters'),
  protocols: (dir: string) => join(dir, 'protocols'),
  mappings: (dir: string) => join(dir, 'mappings'),
  mapping: (dir: string, name: string) => join(dir, 'mappings', `${checkId(name, 'mapping')}.yaml`),
  runs: (dir: string) => join(dir, 'runs'),
  run: (dir: string, run: string) => join(dir, 'runs', checkId(run, 'run')),
  journal: (dir: string, run: string) => join(paths.run(dir, run), 'journal.jsonl'),
  lock: (dir: string, run: string) => join(paths.run(dir, run), 'lock'),
  runProtocol: (dir: string, run: string) => join(paths.run(dir, run), 'protocol.yaml'),
  exports: (dir: string, run: string) => join(paths.run(dir, run), 'exports'),
} as const;

/**
 * True where the folder holds a workbook.
 *
 * @example
 * const dir = emptyFolder();
 * isWorkbook(dir) // => false
 * createWorkbook(dir, { schema: 1, name: 'bench', zone: 'UTC', altitude: '1150 m', hands: [{ id: 'me', name: 'me' }] });
 * isWorkbook(dir) // => true
 */
export function isWorkbook(dir: string): boolean {
  return existsSync(paths.settings(dir));
}

/**
 * The folder to work in: the one named, else the current folder if it is a workbook, else `heatledger` in the home
 * folder. It need not exist yet.
 *
 * @example
 * findWorkbook({ named: '/bench/book', current: '/', home: '/home/mr' }) // => '/bench/book'
 * findWorkbook({ current: '/nowhere', home: '/home/mr' }) // => '/home/mr/heatledger'
 */
export function findWorkbook(where: {
  readonly named?: string | undefined;
  readonly current: string;
  readonly home: string;
}): string {
  if (where.named !== undefined) return resolve(where.current, where.named);
  if (isWorkbook(where.current)) return where.current;
  return join(where.home, 'heatledger');
}
