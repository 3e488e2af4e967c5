import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import {
  addressComplaints,
  circleComplaints,
  doorComplaints,
  indexComplaints,
  lengthComplaints,
  modulesOf,
  orderComplaints,
  reachComplaints,
  type Tree,
} from './support/tree.js';

const top = fileURLToPath(new URL('..', import.meta.url));
const made = ['node_modules', 'dist', '.git'];

function readTree(folder = top, into = new Map<string, string>()): Map<string, string> {
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    const name = relative(top, path).split(sep).join('/');
    if (made.includes(name) || (name.startsWith('reports/') && name !== 'reports/README.md')) continue;
    if (entry.isDirectory()) readTree(path, into);
    else if (entry.isFile()) into.set(name, readFileSync(path, 'latin1'));
  }
  return into;
}

const none: string[] = [];
const own = readTree();

describe('the tree of the project', () => {
  it('shows these names at the top and no other', () => {
    const names = readdirSync(top).filter((name) => !name.startsWith('.') && !made.includes(name));
    const wanted =
      'DEVELOPERS.md README.md package-lock.json package.json protocols reports samples src test';
    expect(names.sort()).toEqual([...wanted.split(' '), 'tsconfig.json'].sort());
  });
  it('has sources to check', () =>
    expect([...own.keys()].filter((p) => p.startsWith('src/')).length).toBeGreaterThan(3));
  it('imports in the order of the folders', () => expect(orderComplaints(own)).toEqual(none));
  it('has no circles', () => expect(circleComplaints(own)).toEqual(none));
  it('reaches past no index.ts', () => expect(reachComplaints(own)).toEqual(none));
  it('says in every index.ts what the folder is for', () => expect(indexComplaints(own)).toEqual(none));
  it('has one door for each dependency', () => expect(doorComplaints(own)).toEqual(none));
  it('has no file over 250 lines', () => expect(lengthComplaints(own)).toEqual(none));
  it('holds no address of a machine or a registry', () => expect(addressComplaints(own)).toEqual(none));
  it('exports folders that exist, with types', () => {
    const { exports } = JSON.parse(own.get('package.json') ?? '{}');
    for (const [name, target] of Object.entries(exports)) {
      const folder = name.replace('./', '');
      expect(own.has(`src/${folder}/index.ts`), name).toBe(true);
      expect(target).toEqual({ types: `./dist/${folder}/index.d.ts`, default: `./dist/${folder}/index.js` });
    }
  });
});

/** A small tree in which everything is right. */
const good: Tree = new Map([
  ['src/errors/index.ts', "/** errors: for all. */\nexport { problem } from './problem.js';\n"],
  ['src/errors/problem.ts', 'export const problem = 1;\n'],
  ['src/logs/index.ts', "/** logs: exports of meters. */\nexport * from './read.js';\n"],
  [
    'src/logs/read.ts',
    "import { parse } from 'csv-parse/sync';\nimport { problem } from '../errors/index.js';\n",
  ],
  ['src/cli/index.ts', "/** cli: commands. */\nexport * from './main.js';\n"],
  ['src/cli/main.ts', "#!/usr/bin/env node\nimport yargs from 'yargs';\n"],
  ['package-lock.json', '{ "integrity": "sha512-x" }\n'],
]);
const withFile = (path: string, text: string): Tree => new Map([...good, [path, text]]);

describe('the checks of the tree see what is wrong', () => {
  const checks = {
    orderComplaints,
    circleComplaints,
    reachComplaints,
    indexComplaints,
    doorComplaints,
    lengthComplaints,
    addressComplaints,
  };
  const bad: [keyof typeof checks, string, string, RegExp][] = [
    ['orderComplaints', 'src/errors/a.ts', "import '../logs/index.js';", /comes later/],
    ['orderComplaints', 'src/errors/a.ts', "type A = import('../cli/main.js').A;", /comes later/],
    ['orderComplaints', 'src/errors/a.ts', "export type { B } from '../logs/index.js';", /comes later/],
    ['orderComplaints', 'src/errors/a.ts', "const b = await import('../logs/index.js');", /comes later/],
    ['orderComplaints', 'src/extra/index.ts', '/** extra */', /no folder of the order/],
    ['orderComplaints', 'src/cli/a.ts', "import './nowhere.js';", /no such file/],
    ['orderComplaints', 'src/cli/a.ts', "import './main';", /no such file/],
    [
      'circleComplaints',
      'src/errors/problem.ts',
      "import type { X } from './index.js';",
      /index.ts -> .*problem.ts/,
    ],
    ['circleComplaints', 'src/errors/a.ts', "import './a.js';", /a.ts -> src\/errors\/a.ts/],
    ['reachComplaints', 'src/cli/a.ts', "import { problem } from '../errors/problem.js';", /reaches past/],
    ['indexComplaints', 'src/logs/index.ts', "export * from './read.js';", /does not start/],
    ['indexComplaints', 'src/logs/index.ts', '// logs\n', /does not start/],
    ['indexComplaints', 'src/units/a.ts', 'export {};', /has no index/],
    ['doorComplaints', 'src/logs/b.ts', "import { parse } from 'csv-parse';", /one file may import/],
    ['doorComplaints', 'src/cli/b.ts', "import 'simple-statistics';", /belongs in statistics/],
    ['doorComplaints', 'src/logs/b.ts', "import type { Argv } from 'yargs';", /belongs in cli/],
    ['doorComplaints', 'src/logs/b.ts', "import 'left-pad';", /no door/],
    ['lengthComplaints', 'src/logs/b.ts', 'x\n'.repeat(251), /251 lines/],
    ['addressComplaints', 'samples/a.md', `one\nsee /${'work'}/main\n`, /line 2: a path/],
    ['addressComplaints', 'test/a.ts', `see /${'root'}/x`, /a path/],
    ['addressComplaints', 'README.md', `https://registry.${'example'}.org/x`, /registry/],
    ['addressComplaints', 'package-lock.json', `{ "resolved": "x" }`, /resolved/],
  ];
  it.each(Object.entries(checks))('%s has nothing to say about a good tree', (_name, check) => {
    expect(check(good)).toEqual([]);
  });
  it.each(bad)('%s, case %#: %s', (name, path, text, complaint) => {
    const complaints = checks[name](withFile(path, text));
    expect(complaints).toHaveLength(1);
    expect(complaints[0]).toMatch(complaint);
  });
  it('sees two files of one folder behind a door of one file each', () => {
    const tree = new Map(withFile('src/logs/b.ts', "import 'temporal-polyfill';"));
    tree.set('src/cli/b.ts', "import 'temporal-polyfill';");
    expect(doorComplaints(tree)).toEqual([]);
    tree.set('src/cli/c.ts', "import { Temporal } from 'temporal-polyfill';");
    expect(doorComplaints(tree)).toHaveLength(1);
  });
  it('lets a table of texts be longer', () => {
    expect(lengthComplaints(withFile('src/errors/texts.ts', 'x\n'.repeat(400)))).toEqual([]);
  });
  it('lets a file of exactly 250 lines pass', () => {
    expect(lengthComplaints(withFile('src/logs/b.ts', 'x\n'.repeat(250)))).toEqual([]);
  });
  it('takes no comment or text for an import', () => {
    expect(modulesOf('a.ts', "// import 'a'\nconst s = \"import 'b'\"; /* from 'c' */ export {};")).toEqual(
      [],
    );
  });
});
