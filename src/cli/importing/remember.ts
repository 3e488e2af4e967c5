import { problem } from '../../errors/index.js';
import type { ExportMapping } from '../../logs/index.js';
import {
  type Mapping,
  type Workbook,
  checkId,
  checkedMapping,
  listMappings,
  readMapping,
  saveMapping,
} from '../../workbook/index.js';
import type { Plan } from './chooseMapping.js';
import type { ImportArgs } from './ImportArgs.js';
import { mappingOf } from './mappingOf.js';

/** A mapping that may be saved: checked, not yet written. */
export interface Remembered {
  save(): string[];
}

/** These words stand for something else after `--like`. */
const reserved = ['none', 'list'];

/**
 * Makes ready to save how an export was read. Another mapping of that name is in the way unless `--replace` is said;
 * nothing is written before `save`.
 */
export function remember(
  args: ImportArgs,
  workbook: Workbook | null,
  plan: Plan,
  found: ExportMapping,
): Remembered | null {
  const name = args.remember;
  if (name === undefined || workbook === null) return null;
  const { dir, settings } = workbook;
  const raw = mappingOf(name, found, plan.stated, settings.zone);
  const before = listMappings(dir).includes(name) ? readMapping(dir, name) : null;
  const differences = before === null ? [] : differencesOf(before, checkedMapping(raw));
  if (differences.length > 0 && args.replace !== true) {
    throw problem(
      'mapping-differs',
      { name, differences: differences.join('; ') },
      { key: '--remember' },
      'Say --replace to put the new one in its place, or choose another name.',
    );
  }
  const how = `The next export of this kind: heatledger import FILE --like ${name}`;
  return {
    save: () => {
      if (before !== null && differences.length === 0) return [`saved as ${name} already, just so`];
      saveMapping(dir, raw);
      return [
        `saved as ${name} in mappings/${name}.yaml${before === null ? '' : ', in place of the one before'}`,
        how,
      ];
    },
  };
}

/** Checks a name before a long reading. */
export function checkedName(name: string): string {
  if (reserved.includes(name.toLowerCase()))
    throw problem('mapping-reserved', { got: name }, { key: '--remember' });
  return checkId(name, 'mapping');
}

/** What is not the same, key by key: "found.decimal was , and is . now". */
function differencesOf(before: Mapping, now: Mapping): string[] {
  const [old, fresh] = [before, now].map((each) => flat(each)) as [Map<string, string>, Map<string, string>];
  const keys = [...new Set([...old.keys(), ...fresh.keys()])];
  return keys.flatMap((key) => {
    const [was, is] = [old.get(key), fresh.get(key)];
    return was === is ? [] : [`${key} was ${was ?? 'not there'} and is ${is ?? 'not there'} now`];
  });
}

function flat(value: unknown, path = ''): Map<string, string> {
  if (typeof value !== 'object' || value === null) return new Map([[path, JSON.stringify(value)]]);
  return new Map(
    Object.entries(value).flatMap(([key, inner]) => [...flat(inner, path === '' ? key : `${path}.${key}`)]),
  );
}
