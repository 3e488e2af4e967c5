import { readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { copyOf, emptyFolder, top, treeOf } from '../support/folders.js';
import { runLine } from '../support/inProcess.js';
import { heatledger } from '../support/program.js';

interface Complaint {
  readonly error: {
    readonly code: string;
    readonly message: string;
    readonly place: Record<string, unknown>;
  };
}

/** Runs a line that must fail: exit code 1, one sentence, no stack, and not a byte changed in the workbook. */
async function refused(args: readonly string[], workbook: string) {
  const before = treeOf(workbook);
  const { code, stdout, stderr } = await runLine([...args, '--json', '--workbook', workbook]);
  expect(treeOf(workbook)).toEqual(before);
  expect([code, stderr]).toEqual([1, '']);
  const { error } = JSON.parse(stdout) as Complaint;
  expect(error.message).toMatch(/^["\w-].*[.?]$/s);
  expect(error.message).not.toMatch(/undefined|NaN|\[object/);
  return error;
}

/** The dairy with one of its nine runs: quicker to evaluate. */
function oneRun(): string {
  const dir = copyOf('samples/dairy');
  for (const name of readdirSync(join(dir, 'runs')))
    if (name !== 'vat-warmer-full-01') rmSync(join(dir, 'runs', name), { recursive: true });
  return dir;
}

const sample = (name: string) => readFileSync(join(top, 'samples', name));
const answersText = sample('answers/vat-warmer-full-01.yaml').toString();

/** A folder with the sample's answers, some of it replaced, and its exports where they are looked for. */
function answersWith(from: string | RegExp, to: string): { file: string; line: number } {
  const changed = answersText.replace(from, to).replaceAll('../exports/', `${join(top, 'samples/exports')}/`);
  expect(changed).not.toBe(answersText.replaceAll('../exports/', `${join(top, 'samples/exports')}/`));
  const file = join(emptyFolder(), 'answers.yaml');
  writeFileSync(file, changed);
  const lines = changed.split('\n');
  const touched = answersText
    .split('\n')
    .findIndex(
      (line, i) =>
        line.replaceAll('../exports/', '') !==
        (lines[i] ?? '').replaceAll(`${join(top, 'samples/exports')}/`, ''),
    );
  return { file, line: touched + 1 };
}

describe('an answer that can not be kept', () => {
  it.each<[string, string | RegExp, string, RegExp]>([
    ['an unknown unit', '"7858 g"', '"7858 grx"', /"grx" is not a known unit for a mass; known are kg, g/],
    [
      'T2 below T1',
      '"52.1 °C"',
      '"11.2 °C"',
      /The end must be warmer than the start, which was kept as 11\.9 °C/,
    ],
    ['a negative mass of water', '"7858 g"', '"1358 g"', /must weigh more than the empty one.*1871 g/],
    [
      'a mass below zero',
      '"7858 g"',
      '"-7858 g"',
      /-7858 g is outside the plausible range of 50 to 120000 g/,
    ],
    ['a number of two meanings', '"7858 g"', '"7,858"', /7858 g or 2\) 7\.858 g.*only one is possible/],
    ['a counter that fell', '"6.224 kWh"', '"5.224 kWh"', /must have gone up from 5\.866 kWh/],
    ['a log that is not there', 'full-01-power', 'full-09-power', /There is no file .*full-09-power\.csv/],
    [
      'a log of another heating',
      'full-01-power',
      'gentle-01-power',
      /doesn't cover the heating: it runs from/,
    ],
    [
      'a temperature log for a power log',
      'full-01-power',
      'full-01-temperature',
      /no column of power or energy/,
    ],
  ])('%s: file and line are named, and nothing is written', async (_what, from, to, words) => {
    const { file, line } = answersWith(from, to);
    const error = await refused(['test', '--answers', file], copyOf('samples/records'));
    expect(error.message).toMatch(words);
    expect(error.place).toEqual({ file, line });
  });

  it.each<[string, string | RegExp, string, RegExp]>([
    [
      'a step that is none',
      'step: fullWeight',
      'step: fullWait',
      /No step is named "fullWait"\. The steps are: cautions,/,
    ],
    [
      'an answer that is missing',
      /.*step: fullWeight.*\n/,
      '',
      /no answer for the step "fullWeight" \(Vessel with/,
    ],
    ['an unknown heater', 'heater: vat-warmer', 'heater: kettle', /no heater "kettle"\. Known: vat-warmer/],
    [
      'an unknown setting',
      'setting: full',
      'setting: hot',
      /no setting "hot"\. It has: gentle, medium, full/,
    ],
    ['an unknown hand', 'hand: mr', 'hand: xy', /no hand "xy"/],
    [
      'an unknown protocol',
      'protocol: water-heating',
      'protocol: fizzing',
      /no protocol "fizzing"\. Known: /,
    ],
    ['a hostile run', 'run: vat-warmer-full-01', 'run: ../../x', /An id is 1 to 64 of/],
    ['a newer form', 'schema: 1', 'schema: 3', /form 3, made by a newer heatledger/],
    ['a key that is none', 'hand: mr', 'hands: mr', /"hands" is known here; check its spelling/],
    ['a torn file', /"11\.9 °C"[\s\S]*/, '"11.', /closing quotation mark or bracket is missing/],
  ])('%s', async (_what, from, to, words) => {
    const { file } = answersWith(from, to);
    expect((await refused(['test', '--answers', file], copyOf('samples/records'))).message).toMatch(words);
  });

  it('a run that is there already', async () => {
    const { file } = answersWith('"52.1 °C"', '"52.0 °C"');
    const error = await refused(['test', '--answers', file], oneRun());
    expect(error.code).toBe('run-exists');
  });
});

describe('an export that can not be taken in', () => {
  const power = sample('exports/vat-warmer-full-01-power.csv');
  const cases: [string, Uint8Array, RegExp, Record<string, unknown>][] = [
    ['empty', Buffer.alloc(0), /The file is empty\. A CSV export with a time column/, {}],
    [
      'binary',
      Buffer.from('PK\x03\x04\x14\0\0\0\x08\0 sheet'),
      /binary file.*Export the readings as CSV/,
      { line: 1 },
    ],
    [
      'cut off in the midst of the heating',
      power.subarray(0, power.length / 2),
      /ends with the heater still on/,
      {},
    ],
    [
      'cut off in a quotation',
      Buffer.from('t [s],P [W]\n0,900\n10,"90'),
      /quoted cell.*never ends/,
      { line: 3 },
    ],
    ['without a unit', Buffer.from('t [s],power\n0,900\n10,900\n'), /no unit is given\. One of/, {}],
    ['of an unknown unit', Buffer.from('t [s],power [foo]\n0,900\n10,900\n'), /unit "foo".*unknown/, {}],
    ['of prose', Buffer.from('Dear reader,\nthis is a letter.\n'), /./, {}],
  ];
  it.each(cases)('%s', async (_what, bytes, words, place) => {
    const file = join(emptyFolder(), 'export.csv');
    writeFileSync(file, bytes);
    const error = await refused(['import', file, '--run', 'vat-warmer-full-01'], oneRun());
    expect(error.message).toMatch(words);
    expect(error.place).toMatchObject({ file, ...place });
  });

  it.each<[string, readonly string[], RegExp]>([
    [
      'a run that is none',
      ['--run', 'vat-warmer-full-77'],
      /no run "vat-warmer-full-77"\. Known runs: .*full-01|Known runs/,
    ],
    ['a hostile run', ['--run', '../../etc'], /can't be the id of a run/],
    [
      'a zone that is none',
      ['--run', 'vat-warmer-full-01', '--zone', 'Middle/Earth'],
      /time zone "Middle\/Earth" is unknown/,
    ],
    [
      'a column that is none',
      ['--run', 'vat-warmer-full-01', '--column', 'power=watts'],
      /no column "watts"/,
    ],
    [
      'an option of another form',
      ['--run', 'vat-warmer-full-01', '--column', 'power'],
      /written as role=value/,
    ],
  ])('because of %s', async (_what, options, words) => {
    const file = join(top, 'samples/exports/vat-warmer-full-01-power.csv');
    expect((await refused(['import', file, ...options], oneRun())).message).toMatch(words);
  });
});

describe('a record on disk that is not in order', () => {
  const changed = (path: string, from: string | RegExp, to: string) => {
    const dir = copyOf('samples/dairy');
    const file = join(dir, path);
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replace(from, to));
    expect(readFileSync(file, 'utf8')).not.toBe(text);
    return { dir, file };
  };

  it.each<[string, string, string | RegExp, string, RegExp, object]>([
    [
      'an unknown unit',
      'instruments/scale-1.yaml',
      '2 g',
      '2 grx',
      /"grx" is not a known unit/,
      { key: 'limits.absolute' },
    ],
    [
      'no limits',
      'instruments/scale-1.yaml',
      /limits:[\s\S]*/,
      '',
      /limits or a certificate/,
      { key: 'limits' },
    ],
    [
      'another name',
      'heaters/vat-warmer.yaml',
      'id: vat-warmer',
      'id: kettle',
      /calls itself "kettle"/,
      { key: 'id' },
    ],
    [
      'no settings',
      'heaters/vat-warmer.yaml',
      /settings:[\s\S]*/,
      'settings: []',
      /at least 1 entry/,
      { key: 'settings' },
    ],
    [
      'a zone that is none',
      'workbook.yaml',
      'Europe/Vienna',
      'Middle/Earth',
      /zone database/,
      { key: 'zone' },
    ],
  ])('%s stops every command, with file, line and key', async (_what, path, from, to, words, place) => {
    const { dir, file } = changed(path, from, to);
    const error = await refused(['result'], dir);
    expect(error.message).toMatch(words);
    expect(error.place).toMatchObject({ file, ...place, line: expect.any(Number) });
  });

  it.each<[string, string, string | RegExp, string, RegExp]>([
    ['a journal line', 'runs/vat-warmer-full-01/journal.jsonl', '7858', '7859', /journal is broken/],
    [
      'a protocol',
      'runs/vat-warmer-full-01/protocol.yaml',
      '30 K',
      '20 K',
      /protocol kept with run .* digest differs/,
    ],
  ])(
    '%s that was changed takes its run out, with the reason and exit code 1',
    async (_what, path, from, to, words) => {
      const { dir } = changed(path, from, to);
      const before = treeOf(dir);
      const { code, stdout, stderr } = await runLine(['result', '--workbook', dir, '--setting', 'full']);
      expect(code).toBe(1);
      expect(stderr).toMatch(words);
      expect(stdout).toMatch(/two runs/);
      expect(treeOf(dir)).toEqual(before);
    },
  );

  it('an instrument past its date is a warning, which the report repeats', async () => {
    const { dir } = changed('instruments/logger-1.yaml', 'due: 2027-03-02', 'due: 2026-06-02');
    const result = await runLine(['result', '--workbook', dir, '--setting', 'full']);
    expect(result.code).toBe(0);
    expect(result.stdout).toMatch(
      /Note: vat-warmer-full-01: thermometer logger \(logger-1\).*past due.*2026-06-02/,
    );
    const out = join(emptyFolder(), 'report.html');
    expect((await runLine(['report', '--workbook', dir, '--out', out])).code).toBe(0);
    expect(readFileSync(out, 'utf8')).toMatch(/logger-1\).*past due.*2026-06-02/);
  });
});

describe('a question to a workbook that can not be answered', () => {
  it.each<[string, readonly string[], RegExp, object]>([
    [
      'an unknown heater',
      ['result', '--heater', 'kettle'],
      /no heater "kettle"\. Known: vat-warmer/,
      { key: '--heater' },
    ],
    ['an unknown setting', ['result', '--heater', 'vat-warmer', '--setting', 'hot'], /no setting "hot"/, {}],
    [
      'an unknown figure',
      ['size', '--figure', 'kettle/full', '--mass', '1 kg'],
      /no figure "kettle\/full"\. Known: /,
      {},
    ],
    [
      'no mass',
      ['size', '--figure', 'vat-warmer/full'],
      /option --mass is missing \(mass of the load\)/,
      { key: '--mass' },
    ],
    [
      'a mass in kWh',
      ['size', '--figure', 'vat-warmer/full', '--mass', '3 kWh'],
      /measures energy/,
      { key: '--mass' },
    ],
    [
      'a mass below zero',
      ['size', '--figure', 'vat-warmer/full', '--mass=-3 kg', '--start', '5 °C', '--end', '60 °C'],
      /must be more than zero, but it is -3 kg/,
      { key: '--mass' },
    ],
    [
      'an end below the start',
      ['size', '--figure', 'vat-warmer/full', '--mass', '3 kg', '--start', '60 °C', '--end', '5 °C'],
      /must be more than zero, but it is -55/,
      {},
    ],
    [
      'an unknown instrument',
      ['instrument', 'show', 'clock-1'],
      /no instrument "clock-1"\. Known: logger-1/,
      {},
    ],
    [
      'an instrument twice',
      ['instrument', 'add', '--file', join(top, 'samples/records/instruments/scale-1.yaml')],
      /scale-1" is there already/,
      {},
    ],
    [
      'an instrument without limits',
      ['instrument', 'add', 'x', '--kind', 'scale', '--resolution', '1 g'],
      /--absolute is missing/,
      {},
    ],
    [
      'a step in kWh',
      ['instrument', 'add', 'x', '--kind', 'scale', '--resolution', '1 kWh', '--absolute', '2 g'],
      /measures energy; a mass is expected/,
      { key: 'resolution' },
    ],
    [
      'a heater twice',
      ['heater', 'add', 'Vat warmer', '--settings', 'full', '--material', 'steel'],
      /vat-warmer" is there already/,
      {},
    ],
    [
      'a hostile heater',
      ['heater', 'add', 'x', '--id', '../x', '--settings', 'full', '--material', 'steel'],
      /can't be the id/,
      {},
    ],
    [
      'a heater without settings',
      ['heater', 'add', 'x', '--settings', ',', '--material', 'steel'],
      /at least 1 entry/,
      {},
    ],
    ['an unknown protocol', ['protocol', 'show', 'fizzing'], /no protocol "fizzing"/, {}],
    ['a protocol that is none', ['protocol', 'validate', join(top, 'package.json')], /./, {}],
    ['no terminal to ask at', ['test'], /needs a terminal, or a file of answers/, {}],
  ])('%s', async (_what, args, words, place) => {
    const error = await refused(args, oneRun());
    expect(error.message).toMatch(words);
    expect(error.place).toMatchObject(place);
  });

  it('no workbook', async () => {
    const home = emptyFolder();
    for (const command of ['result', 'report', 'size', 'instrument', 'heater']) {
      const { code, stderr } = await heatledger([command], { home, cwd: home });
      expect([code, stderr]).toEqual([
        1,
        expect.stringMatching(/There is no workbook in .*heatledger test/s),
      ]);
    }
    expect(treeOf(home)).toEqual({});
  });
});

describe('a complaint at a terminal or in a pipe', () => {
  it.each<[string, readonly string[], RegExp]>([
    [
      'a bad answer',
      ['test', '--answers', 'answers.yaml'],
      /^answers\.yaml, line 16: The answer "785\.8 g" to the step/,
    ],
    [
      'an empty export',
      ['import', 'empty.csv', '--run', 'vat-warmer-full-01'],
      /^empty\.csv: The file is empty/,
    ],
    [
      'an export cut off',
      ['import', 'cut.csv', '--run', 'vat-warmer-full-01'],
      /^cut\.csv: This log doesn't cover/,
    ],
  ])(
    'about %s is one sentence with its place, exit code 1, and not a byte changed',
    async (_what, args, words) => {
      const [cwd, dir] = [emptyFolder(), oneRun()];
      const power = sample('exports/vat-warmer-full-01-power.csv');
      writeFileSync(join(cwd, 'empty.csv'), '');
      writeFileSync(join(cwd, 'cut.csv'), power.subarray(0, power.length / 2));
      writeFileSync(
        join(cwd, 'answers.yaml'),
        answersText.replace('full-01', 'full-05').replace('7858 g', '785.8 g'),
      );
      const before = [treeOf(cwd), treeOf(dir)];
      const { code, stdout, stderr } = await heatledger([...args, '--workbook', dir], { cwd });
      expect([code, stdout]).toEqual([1, '']);
      expect(stderr).toMatch(words);
      expect(stderr).not.toMatch(/\n\s+at |node:/);
      expect([treeOf(cwd), treeOf(dir)]).toEqual(before);
    },
  );

  it.each<[string, readonly string[], string, RegExp]>([
    [
      'place, then sentence',
      ['result', '--heater', 'x'],
      '',
      /^--heater: There is no heater "x"\. Known: vat-warmer\.\nAdd one with: /,
    ],
    [
      'place in a file',
      ['result'],
      'limits:\n  absolute: -2 g\n',
      /scale-1\.yaml, line 8, column \d+, limits\.absolute: A limit/,
    ],
  ])('has %s on stderr, and nothing on stdout', async (_what, args, limits, words) => {
    const dir = oneRun();
    const file = join(dir, 'instruments/scale-1.yaml');
    if (limits !== '') writeFileSync(file, readFileSync(file, 'utf8').replace(/limits:[\s\S]*/, limits));
    const { code, stdout, stderr } = await heatledger([...args, '--workbook', dir]);
    expect([code, stdout]).toEqual([1, '']);
    expect(stderr).toMatch(words);
    expect(stderr).not.toMatch(/\n\s+at |node:/);
  });
});
