import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import { commandTable } from '../../src/cli/commandTable.js';
import { copyOf, emptyFolder, top, treeOf } from '../support/folders.js';
import { heatledger, heatledgerJson } from '../support/program.js';

const version = (JSON.parse(readFileSync(join(top, 'package.json'), 'utf8')) as { version: string }).version;

describe('the command line', () => {
  it.each([[['--help']], [['-h']], [['help']], [[]]])('%j lists every command once', async (args) => {
    const { code, stdout, stderr } = await heatledger(args);
    expect([code, stderr]).toEqual([0, '']);
    for (const { usage, describe: says } of commandTable)
      expect(
        stdout.split('\n').filter((line) => line.startsWith(`  ${usage} `) && line.endsWith(says)),
      ).toHaveLength(1);
    expect(stdout).toContain('First time here? heatledger test');
  });

  it.each([[['--version']], [['-v']]])('%j says the version', async (args) => {
    expect(await heatledger(args)).toEqual({ code: 0, stdout: `${version}\n`, stderr: '' });
  });

  it.each(commandTable.map((entry) => entry.name))('%s --help says what it does and takes', async (name) => {
    const { code, stdout, stderr } = await heatledger([name, '--help']);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toContain(`heatledger ${name}`);
    for (const option of ['--workbook', '--json', '--units', '--detail']) expect(stdout).toContain(option);
    // Every option says what it is for.
    const options = stdout.split('\n').filter((line) => /^\s+--\w/.test(line));
    for (const line of options) expect(line).toMatch(/^\s+--[\w-]+(\s{2,}\S.*)$/);
  });

  it.each<[readonly string[], RegExp]>([
    [['resluts'], /There is no command or option "resluts"\. See heatledger --help\./],
    [
      ['result', '--hater', 'x'],
      /The command result knows nothing of "hater"\. See heatledger result --help\./,
    ],
    [['result', 'vat-warmer'], /knows nothing of "vat-warmer"/],
    [['result', '--units', 'metric'], /"metric" can't be used for units; one of these is expected: si, us\./],
    [['heater', 'remove'], /"remove" can't be used for action; one of these is expected: list, show, add\./],
    [['result', '--workbook'], /The option --workbook needs a value after it/],
    [['result', '--heater'], /The option --heater needs a value after it/],
    [
      ['import'],
      /The argument "file" is missing \(a CSV export\); without a terminal nobody can be asked for it\./,
    ],
    [['--nonsense'], /Name a command/],
  ])('%j is refused in one sentence, in JSON too', async (args, words) => {
    const cwd = emptyFolder();
    const plain = await heatledger(args, { cwd });
    expect([plain.code, plain.stdout]).toEqual([1, '']);
    expect(plain.stderr).toMatch(words);
    expect(plain.stderr.trimEnd().split('\n')).toHaveLength(1);
    const json = await heatledger([...args, '--json'], { cwd });
    expect([json.code, json.stderr]).toEqual([1, '']);
    expect(JSON.parse(json.stdout).error.message).toMatch(words);
    expect(treeOf(cwd)).toEqual({});
  });

  it('finds the workbook by option, by the folder, or at home', async () => {
    type Heaters = { heaters: { id: string }[] };
    const dir = copyOf('samples/records');
    const ids = async (args: readonly string[], where: { cwd?: string; home?: string }) =>
      (await heatledgerJson<Heaters>(['heater', ...args], where)).heaters.map((each) => each.id);
    expect(await ids(['--workbook', dir], {})).toEqual(['vat-warmer']);
    expect(await ids([], { cwd: dir })).toEqual(['vat-warmer']);
    expect((await heatledger(['heater'], { home: dir })).stderr).toContain(join(dir, 'heatledger'));
  });
});

const loader = `
import { appendFileSync } from 'node:fs';
export async function resolve(specifier, context, next) {
  const found = await next(specifier, context);
  appendFileSync(process.env.TEST_MODULES, found.url + '\\n');
  return found;
}
`;

/** Every module a line loads. */
async function modulesOf(args: readonly string[]): Promise<string[]> {
  const folder = emptyFolder();
  const [hook, list] = [join(folder, 'hook.mjs'), join(folder, 'modules')];
  writeFileSync(hook, loader.replace('process.env.TEST_MODULES', JSON.stringify(list)));
  writeFileSync(list, '');
  const register = `import { register } from 'node:module'; register(${JSON.stringify(pathToFileURL(hook).href)});`;
  const node = ['--import', `data:text/javascript,${encodeURIComponent(register)}`];
  expect((await heatledger(args, { node })).code).toBe(0);
  return readFileSync(list, 'utf8').trim().split('\n');
}

describe('the overview and the version load nothing that weighs', () => {
  it.each([['--help'], ['--version']])('heatledger %s', async (option) => {
    const modules = await modulesOf([option]);
    expect(modules.filter((each) => each.includes('/node_modules/'))).toEqual([]);
    expect(
      modules
        .filter((each) => each.includes('/dist/'))
        .map((each) => each.replace(/.*\/dist\//, ''))
        .sort(),
    ).toEqual(['cli/commandTable.js', 'cli/main.js', 'cli/version.js']);
  });

  it('the count sees what a command loads', async () => {
    const modules = (await modulesOf(['protocol', 'list'])).join('\n');
    for (const name of ['yargs', 'zod', 'yaml']) expect(modules).toContain(`/node_modules/${name}/`);
    expect(modules).not.toMatch(/\/node_modules\/(vega|vega-lite)\//);
  });
});
