import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { problem } from '../errors/index.js';
import { checkId, paths, readText } from '../workbook/index.js';
import { type Protocol, parseProtocol } from './schema.js';

/** Folder of the protocols that ship with the program; dist/protocols/ and src/protocols/ lie at the same depth. */
const shipped = fileURLToPath(new URL('../../protocols', import.meta.url));

export interface FoundProtocol {
  readonly name: string;
  readonly file: string;
  /** `workbook` where the lab has its own. */
  readonly from: 'workbook' | 'shipped';
}

/**
 * All protocols: the lab's own first; one of the same name stands in for the one that ships.
 *
 * @example
 * listProtocols(null).map((each) => each.name).slice(0, 3) // => ['boil-off', 'cool-down', 'first-heating']
 */
export function listProtocols(workbookDir: string | null): FoundProtocol[] {
  const found = new Map<string, FoundProtocol>();
  const look = (folder: string, from: FoundProtocol['from']) => {
    if (!existsSync(folder)) return;
    for (const entry of readdirSync(folder)
      .filter((each) => each.endsWith('.yaml'))
      .sort()) {
      const name = entry.slice(0, -'.yaml'.length);
      if (!found.has(name)) found.set(name, { name, file: join(folder, entry), from });
    }
  };
  if (workbookDir !== null) look(paths.protocols(workbookDir), 'workbook');
  look(shipped, 'shipped');
  return [...found.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
}

/**
 * A protocol by its name, with its text as it stands.
 *
 * @example
 * findProtocol('water-heating', null).protocol.limits.minimumRise // => 30
 * findProtocol('fizzing', null) // throws 'protocol-unknown'
 */
export function findProtocol(
  name: string,
  workbookDir: string | null,
): { readonly protocol: Protocol; readonly text: string; readonly file: string } {
  checkId(name, 'protocol');
  const all = listProtocols(workbookDir);
  const found = all.find((each) => each.name === name);
  if (!found) {
    throw problem('protocol-unknown', { got: name, known: all.map((each) => each.name).join(', ') }, {});
  }
  const text = readText(found.file);
  const protocol = parseProtocol(text, found.file);
  if (protocol.name !== name) {
    throw problem(
      'record-misnamed',
      { got: protocol.name, expected: name },
      { file: found.file, key: 'name' },
    );
  }
  return { protocol, text, file: found.file };
}
