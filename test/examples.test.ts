import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Example, examplesOf, publicFunctions, runExample } from './support/examples.js';
import { emptyFolder } from './support/folders.js';
import { mismatch } from './support/mismatch.js';

const top = fileURLToPath(new URL('..', import.meta.url));

const sources = new Map<string, string>();
for (const entry of readdirSync(join(top, 'src'), { withFileTypes: true, recursive: true })) {
  if (!entry.isFile() || !entry.name.endsWith('.ts')) continue;
  const path = join(entry.parentPath, entry.name);
  sources.set(relative(top, path).split(sep).join('/'), readFileSync(path, 'utf8'));
}
const examples = [...sources].flatMap(([path, text]) => examplesOf(path, text));

/** The public names of the folder, those of the file itself, `emptyFolder()` and `writeFileSync` for what reads and writes files. */
async function scopeOf(path: string): Promise<Record<string, unknown>> {
  const index = path.replace(/^(src\/\w+)\/.*$/, '$1/index.ts');
  const files = [path, ...(existsSync(join(top, index)) ? [index] : [])];
  const modules = await Promise.all(files.map((file) => import(/* @vite-ignore */ join(top, file))));
  const { default: _unnamed, ...names } = Object.assign({}, ...modules);
  return { ...names, emptyFolder, writeFileSync };
}

describe('the examples in the docblocks of src run and say what is true', () => {
  it('there are some', () => expect(examples.length).toBeGreaterThan(0));
  it.each(examples.map((example) => [`${example.path}, line ${example.line}`, example] as const))(
    '%s',
    async (_name, example) => runExample(example, await scopeOf(example.path)),
  );
});

describe('the public functions', () => {
  const functions = publicFunctions(sources);
  it('are found', () => expect(functions.length).toBeGreaterThan(0));
  it('all have a docblock', () => {
    const bare = functions.filter((each) => !each.documented).map((each) => `${each.path}: ${each.name}`);
    expect(bare).toEqual([]);
  });
  it('have an example, at least four of five', () => {
    const without = functions.filter((each) => !each.withExample);
    const list = without.map((each) => `${each.path}: ${each.name}`).join('\n');
    if (list)
      console.info(
        `Public functions without an example (${without.length} of ${functions.length}):\n${list}`,
      );
    expect(without.length / functions.length, list).toBeLessThanOrEqual(0.2);
  });
});

const example = (code: string): Example => ({ path: 'src/a/b.ts', line: 1, code });
const scope = {
  half: (x: number) => x / 2,
  later: async (x: number) => x,
  bad: () => {
    throw Object.assign(new Error('no'), { code: 'mass-negative' });
  },
};

describe('the runner of examples', () => {
  it('finds the code, its lines and its end', () => {
    const text =
      '/** One. @example is no tag here */\n\n/**\n * Half.\n *\n * @example\n * half(3) // => 1.5\n *\n * half(4)\n * @returns it\n */\n';
    expect(examplesOf('src/a/b.ts', text)).toEqual([
      { path: 'src/a/b.ts', line: 6, code: '\nhalf(3) // => 1.5\n\nhalf(4)' },
    ]);
  });
  it('leaves out a fence and reads the code beside the tag', () => {
    const text = '/** @example half(1) */\n/**\n * @example\n * ```ts\n * half(2)\n * ```\n */';
    expect(examplesOf('p', text).map((each) => each.code.trim())).toEqual(['half(1)', 'half(2)']);
  });
  it.each([
    'half(3) // => 1.5',
    'half(3); // => 1.5',
    'const x: number = half(3) // => 1.5\nhalf(x) // => 0.75',
    'half(\n  3,\n)\n// => 1.5',
    'later(2) // => 2',
    'await later(2) // => 2',
    "bad() // throws 'mass-negative'",
    "throw bad() // throws 'mass-negative'",
    'half(1)',
    '({ a: half(3), b: ["x"] }) // => { a: 1.5, b: [\'x\'] }',
  ])('passes what is true: %j', async (code) => {
    await expect(runExample(example(code), scope)).resolves.toBeUndefined();
  });
  it.each([
    ['half(3) // => 1.6', /line 1: expected 1.6, got 1.5/],
    ['half(2)\nhalf(3) // => 1.6', /line 2/],
    ['const x = half(3) // => 2.5', /got 1.5/],
    ['half(1) // => 1\nhalf(3) // => 1', /line 1[\s\S]*line 2/],
    ['later(2) // => 3', /got 2/],
    ['bad()', /no/],
    ["half(1) // throws 'mass-negative'", /nothing was thrown/],
    ["bad() // throws 'mass-zero'", /got mass-negative/],
    ['third(3) // => 1', /third is not defined/],
    ['half(3) // => about one', /not a value/],
    ['\n// => 1', /no statement ends here/],
    ['if (half(2)) half(3) // => 1', /no value/],
  ])('fails what is not: %j', async (code, complaint) => {
    await expect(runExample(example(code), scope)).rejects.toThrow(complaint);
  });
});

describe('a value and the text that says what it should be', () => {
  it.each<[string, unknown]>([
    ['99.9743', 99.97425],
    ['99.9743', 99.97435],
    ['101325', 101325.4],
    ['62_800', 62799.6],
    ['1.23e-5', 1.2349e-5],
    ['0.1', 0.149],
    ['-2.50', -2.504],
    ['0', -0],
    ['3', 3 + 1e-12],
    ['NaN', Number.NaN],
    ['-Infinity', Number.NEGATIVE_INFINITY],
    ["'a'", 'a'],
    ['[1.0, "b"]', [1.04, 'b']],
    ['[1.5, 2.5]', Float64Array.of(1.5, 2.5)],
    ['{ a: { b: null }, "c-d": true }', { a: { b: null }, 'c-d': true, e: undefined }],
    ['undefined', undefined],
  ])('%s is %j', (expected, got) => expect(mismatch(expected, got)).toBeUndefined());
  it.each<[string, unknown]>([
    ['99.9743', 99.9744],
    ['99.9743', '99.9743'],
    ['101325', 101326],
    ['0', 0.4],
    ['3', 3.1],
    ['1.23e-5', 1.24e-5],
    ['0.10', 0.149],
    ['true', 1],
    ['null', undefined],
    ['NaN', 1],
    ["'a'", 'b'],
    ['[1]', [1, 2]],
    ['[1]', { 0: 1, length: 1 }],
    ['{ a: 1 }', { a: 1, b: 2 }],
    ['{ a: 1, b: undefined }', { a: 1 }],
    ['{ a: [{ b: 1 }] }', { a: [{ b: 2 }] }],
    ['{}', []],
    ['x', 'x'],
    ['1) + (2', 3],
    ['', undefined],
  ])('%s is not %j', (expected, got) => expect(mismatch(expected, got)).toEqual(expect.any(String)));
  it('says which part differs', () => {
    expect(mismatch('{ a: [1, { b: 2 }] }', { a: [1, { b: 3 }] })).toMatch(/at \.a\[1\]\.b/);
  });
});

describe('the list of public functions', () => {
  const tree = new Map([
    [
      'src/a/index.ts',
      "/** a */\nexport { full, bare as naked } from './b.js';\nexport * from './c.js';\nexport type { T } from './b.js';\n",
    ],
    [
      'src/a/b.ts',
      '/** Full.\n * @example\n * full()\n */\nexport function full() {}\nexport function bare() {}\nexport type T = () => void;\nfunction own() {}\nown();\n',
    ],
    [
      'src/a/c.ts',
      '/** Arrow without an example. */\nexport const arrow = () => 1;\nexport const table = { a: 1 };\n/** A class. */\nexport class Thing {}\n',
    ],
  ]);
  it('knows which are documented and which have an example', () => {
    const short = publicFunctions(tree).map((f) => [f.name, f.path, f.documented, f.withExample]);
    expect(short.sort()).toEqual([
      ['Thing', 'src/a/c.ts', true, true],
      ['arrow', 'src/a/c.ts', true, false],
      ['full', 'src/a/b.ts', true, true],
      ['naked', 'src/a/b.ts', false, false],
    ]);
  });
});
