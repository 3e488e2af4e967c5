import { posix } from 'node:path';
import ts from 'typescript';

/** A tree of sources in memory: path from the top, with forward slashes, to text. */
export type Tree = ReadonlyMap<string, string>;

/** A folder of src imports only from those before it. */
export const folderOrder = [
  'errors',
  'units',
  'water',
  'statistics',
  'uncertainty',
  'logs',
  'fitting',
  'workbook',
  'instruments',
  'protocols',
  'evaluation',
  'signoff',
  'sizing',
  'report',
  'cli',
] as const;

interface Door {
  /** The folders that may import the packages. */
  readonly folders: readonly string[];
  /** In how many files: of the whole program, or of each folder. */
  readonly files: 'any' | 'one' | 'one each';
}

/** Which packages src may import, and where: replacing one is then an afternoon's work. */
const doors: readonly (Door & { readonly packages: readonly string[] })[] = [
  { packages: ['csv-parse'], folders: ['logs'], files: 'one' },
  { packages: ['csv-stringify'], folders: ['logs'], files: 'one' },
  { packages: ['vega', 'vega-lite'], folders: ['report'], files: 'one' },
  { packages: ['simple-statistics'], folders: ['statistics'], files: 'one' },
  { packages: ['ml-matrix'], folders: ['fitting'], files: 'one' },
  { packages: ['yaml'], folders: ['workbook'], files: 'one' },
  { packages: ['zod'], folders: ['workbook', 'protocols'], files: 'any' },
  { packages: ['yargs'], folders: ['cli'], files: 'any' },
  { packages: ['picocolors'], folders: ['cli'], files: 'any' },
  { packages: ['temporal-polyfill'], folders: folderOrder, files: 'one each' },
];

/** Every module a source names: imports and exports, type-only ones too, `import()` and `import('x').T`. */
export function modulesOf(path: string, text: string): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const named =
      ts.isImportDeclaration(node) || ts.isExportDeclaration(node)
        ? node.moduleSpecifier
        : ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)
          ? node.argument.literal
          : ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword
            ? node.arguments[0]
            : undefined;
    if (named && ts.isStringLiteralLike(named)) found.push(named.text);
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, text, ts.ScriptTarget.ES2022));
  return found;
}

/** `src/units/index.ts` for `../units/index.js` written in `src/water/density.ts`. */
function targetOf(from: string, module: string): string {
  return posix.normalize(posix.join(posix.dirname(from), module)).replace(/\.js$/, '.ts');
}

const sourcesOf = (tree: Tree) =>
  [...tree].filter(([path]) => path.startsWith('src/') && path.endsWith('.ts'));
const folderOf = (path: string) => path.split('/')[1] ?? '';

/** Every import of src from src, and complaints about those that lead nowhere. */
function edgesOf(tree: Tree) {
  const edges: { from: string; to: string }[] = [];
  const lost: string[] = [];
  for (const [from, text] of sourcesOf(tree)) {
    for (const module of modulesOf(from, text)) {
      if (!module.startsWith('.')) continue;
      const to = targetOf(from, module);
      if (tree.has(to) && module.endsWith('.js')) edges.push({ from, to });
      else lost.push(`${from} imports ${module}: no such file (paths end in .js).`);
    }
  }
  return { edges, lost };
}

/** (b) A folder imports only from folders before it in the order, and every import leads to a file of src. */
export function orderComplaints(tree: Tree): string[] {
  const { edges, lost } = edgesOf(tree);
  const rank = (path: string) => (folderOrder as readonly string[]).indexOf(folderOf(path));
  const strangers = sourcesOf(tree)
    .filter(([path]) => rank(path) < 0)
    .map(([path]) => `${path} lies in no folder of the order.`);
  const wrong = edges
    .filter(({ from, to }) => rank(to) > rank(from) || !to.startsWith('src/'))
    .map(({ from, to }) => `${from} imports ${to}, which comes later in the order.`);
  return [...strangers, ...lost, ...wrong];
}

/** (c) No file can be reached from itself. Each circle is told once, from its first file. */
export function circleComplaints(tree: Tree): string[] {
  const next = new Map<string, string[]>();
  for (const { from, to } of edgesOf(tree).edges) next.set(from, [...(next.get(from) ?? []), to]);
  const complaints: string[] = [];
  const state = new Map<string, 'open' | 'done'>();
  const trail: string[] = [];
  const walk = (path: string): void => {
    state.set(path, 'open');
    trail.push(path);
    for (const to of next.get(path) ?? []) {
      if (state.get(to) === 'open')
        complaints.push(`Circle: ${[...trail.slice(trail.indexOf(to)), to].join(' -> ')}`);
      else if (!state.has(to)) walk(to);
    }
    trail.pop();
    state.set(path, 'done');
  };
  for (const path of next.keys()) if (!state.has(path)) walk(path);
  return complaints;
}

/** (d) Another folder is imported through its index only. */
export function reachComplaints(tree: Tree): string[] {
  return edgesOf(tree)
    .edges.filter(({ from, to }) => folderOf(from) !== folderOf(to) && to !== `src/${folderOf(to)}/index.ts`)
    .map(({ from, to }) => `${from} reaches past the index of ${folderOf(to)} to ${to}.`);
}

/** (e) Every folder of src has an index that starts with a block comment. */
export function indexComplaints(tree: Tree): string[] {
  const folders = new Set(sourcesOf(tree).map(([path]) => folderOf(path)));
  const complaints: string[] = [];
  for (const folder of folders) {
    const text = tree.get(`src/${folder}/index.ts`);
    if (text === undefined) complaints.push(`src/${folder} has no index.ts.`);
    else if (!/^\/\*\*?[\s*]*\w/.test(text))
      complaints.push(`src/${folder}/index.ts does not start with a comment that says what it is for.`);
  }
  return complaints;
}

/** `csv-parse` for `csv-parse/sync`, `@a/b` for `@a/b/c`. */
const packageOf = (module: string) => module.split('/', module.startsWith('@') ? 2 : 1).join('/');

/** (f) Every package is imported through its door only, and src imports no package without one. */
export function doorComplaints(tree: Tree): string[] {
  const complaints: string[] = [];
  const users = new Map<string, Set<string>>();
  for (const [path, text] of sourcesOf(tree)) {
    for (const module of modulesOf(path, text)) {
      if (module.startsWith('.') || module.startsWith('node:')) continue;
      const name = packageOf(module);
      users.set(name, (users.get(name) ?? new Set()).add(path));
    }
  }
  for (const [name, paths] of users) {
    const door = doors.find((candidate) => candidate.packages.includes(name));
    if (!door) complaints.push(`${[...paths].join(', ')}: no door is known for the package ${name}.`);
    for (const path of door ? paths : [])
      if (!door?.folders.includes(folderOf(path)))
        complaints.push(`${path} imports ${name}, which belongs in ${door?.folders.join(', ')}.`);
  }
  for (const door of doors) {
    const paths = [...new Set(door.packages.flatMap((name) => [...(users.get(name) ?? [])]))];
    const rooms = door.files === 'one each' ? [...new Set(paths.map(folderOf))] : [''];
    for (const room of door.files === 'any' ? [] : rooms) {
      const here = paths.filter((path) => room === '' || folderOf(path) === room);
      if (here.length > 1)
        complaints.push(`${door.packages.join(' and ')}: one file may import it, not ${here.join(', ')}.`);
    }
  }
  return complaints;
}

/** (g) No file of src is longer than 250 lines, but for the tables of texts, which are to stay in one file. */
export function lengthComplaints(tree: Tree): string[] {
  return sourcesOf(tree)
    .map(([path, text]) => ({ path, lines: text.replace(/\n$/, '').split('\n').length }))
    .filter(({ path, lines }) => lines > 250 && !path.endsWith('/texts.ts'))
    .map(({ path, lines }) => `${path} has ${lines} lines; 250 are the most.`);
}

// Written in pieces, so that this file passes its own check.
const forbidden: readonly (readonly [RegExp, string])[] = [
  [new RegExp(`/${'work'}/`), 'a path of one machine'],
  [new RegExp(`/${'root'}/`), 'a path of one machine'],
  [new RegExp(`\\bregistry\\.${'[a-z]'}|npm${'js'}\\.(org|com)`), 'the host of a registry'],
];

/** (h) No path of one machine, no host of a registry in any file, no "resolved" address in package-lock.json. */
export function addressComplaints(tree: Tree): string[] {
  const complaints: string[] = [];
  for (const [path, text] of tree) {
    text.split('\n').forEach((line, index) => {
      const hit = forbidden.find(([pattern]) => pattern.test(line));
      if (hit) complaints.push(`${path}, line ${index + 1}: ${hit[1]}.`);
      if (path === 'package-lock.json' && /"resolved"\s*:/.test(line))
        complaints.push(`${path}, line ${index + 1}: a "resolved" address.`);
    });
  }
  return complaints;
}
