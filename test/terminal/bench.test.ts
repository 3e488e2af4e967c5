import { copyFileSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { paths } from '../../src/workbook/index.js';
import { copyOf, emptyFolder, top, treeOf } from '../support/folders.js';
import { heatledger, heatledgerJson } from '../support/program.js';
import { type Answer, BenchClock, Person, until } from './guided.js';

const run = 'vat-warmer-full-01';
const exports = [`${run}-power.csv`, `${run}-temperature.csv`] as const;

/** A workbook with the dairy's instruments and heater and no run, and a folder with the exports of the run. */
function bench(): { workbook: string; cwd: string } {
  const cwd = emptyFolder();
  for (const name of exports) copyFileSync(join(top, 'samples/exports', name), join(cwd, name));
  return { workbook: copyOf('samples/records'), cwd };
}

/**
 * The sample run as a person types it, with slips, odd units and second thoughts. The clock begins at 09:10 UTC; the
 * marks fall on the second of the sample, whose log counts from the start of the loggers at 09:22:14.
 */
const work: readonly Answer[] = [
  { prompt: 'Cautions read', typed: '', afterS: 47 },
  { prompt: 'within 2 K of the room', typed: 'yes', afterS: 30 },
  { prompt: 'free of draught', typed: '?' },
  { prompt: 'free of draught', typed: 'y' },
  { prompt: 'Is the lid on or off', typed: 'ON' },
  { prompt: 'Room temperature (-10 to 45 °C)', typed: '170' },
  {
    prompt: /170 °C is outside the plausible range of -10 to 45 °C[\s\S]*Room temperature/,
    typed: '62.6 °F',
  },
  { prompt: 'Empty vessel', typed: '1,871' },
  { prompt: /1\) 1871 g or 2\) 1\.871 g\. Which one/, typed: '1' },
  { prompt: 'Vessel with the water', typed: '9.3 lb' },
  { prompt: /kept 9\.3 lb = 4218\.4 g[\s\S]*before the start/, typed: 'back' },
  { prompt: /Going back one step[\s\S]*Vessel with the water/, typed: '1500' },
  { prompt: /more than the empty one[\s\S]*Vessel with the water/, typed: '5100+2758 g' },
  { prompt: /kept 7858 g[\s\S]*before the start/, typed: '5.866' },
  { prompt: 'Start the loggers', typed: '', afterS: 417 },
  { prompt: 'Stir for half a minute', typed: '61 °F', afterS: 39 },
  { prompt: 'Switch on now', typed: 'back', afterS: 20 },
  { prompt: 'Stir for half a minute', typed: '11.9', afterS: 20 },
  { prompt: 'Switch on now', typed: '', afterS: 23 },
  { prompt: 'on the way', typed: '22.3', afterS: 434 },
  { prompt: 'on the way', typed: '32.8', afterS: 362 },
  { prompt: 'on the way', typed: '42.8', afterS: 362 },
  { prompt: 'on the way', typed: '', afterS: 5 },
  { prompt: 'Switch off at the target', typed: '', afterS: 285 },
  { prompt: 'Stir until the temperature holds', typed: '11', afterS: 143 },
  { prompt: /warmer than the start[\s\S]*Stir until/, typed: '52.1', afterS: 10 },
  { prompt: 'Weigh again', typed: '785.2', afterS: 60 },
  { prompt: /No water would be left[\s\S]*Weigh again/, typed: '7.852 kg', afterS: 6 },
  { prompt: 'energy counter now', typed: '0.412 kWh' },
  { prompt: /gone up from 5\.866 kWh[\s\S]*counter now/, typed: '6.224' },
  { prompt: 'CSV export of the meter', typed: 'none.csv', afterS: 200 },
  { prompt: /no file none\.csv[\s\S]*CSV export of the meter/, typed: exports[0] },
  { prompt: /they agree[\s\S]*export of the thermometer/, typed: exports[1], afterS: 30 },
  { prompt: 'not as usual', typed: 'the dairy door stood open once', afterS: 30 },
];

const begin = (workbook: string) => [
  ...['test', 'water-heating', '--heater', 'vat-warmer', '--setting', 'full'],
  ...['--workbook', workbook],
];

interface Figures {
  readonly figures: readonly {
    readonly efficiency: { readonly value: number; readonly standardUncertainty: number };
    readonly budget: readonly unknown[];
  }[];
}
const figuresOf = async (workbook: string) =>
  (await heatledgerJson<Figures>(['result', '--workbook', workbook])).figures;

const sourceOf = (prompt: string | RegExp | undefined) =>
  prompt instanceof RegExp ? prompt.source : (prompt ?? '').replace(/[()[\]]/g, '\\$&');

/** The work with the program killed after so many answers, as by a power cut, and gone on with by these options. */
async function interrupted(after: number, resume: readonly string[]) {
  const { workbook, cwd } = bench();
  const clock = new BenchClock();
  const first = new Person(begin(workbook), clock, { cwd });
  await first.answers(work.slice(0, after));
  await first.sees(work[after]?.prompt as string | RegExp);
  await first.terminal.kill('SIGKILL');
  const second = new Person(['test', ...resume, '--workbook', workbook], clock, { cwd });
  // The program stands at the question where it was killed; what came before it on the screen is gone.
  const question = new RegExp(sourceOf(work[after]?.prompt).split('[\\s\\S]*').at(-1) as string);
  await second.answer(question, work[after]?.typed as string, work[after]?.afterS);
  await second.answers(work.slice(after + 1));
  return { workbook, ...(await second.end()) };
}

describe('a guided run of water-heating at a terminal', () => {
  let whole: { workbook: string; code: number; screen: string };
  beforeAll(async () => {
    const { workbook, cwd } = bench();
    const person = new Person(begin(workbook), new BenchClock(), { cwd });
    await person.answers(work);
    whole = { workbook, ...(await person.end()) };
  });

  it('ends with the figure in plain words', () => {
    expect(whole.code).toBe(0);
    expect(whole.screen).toMatch(/7\d(\.\d)? % reached the water\. Next time: most likely/);
    expect(whole.screen).toMatch(/Next: heatledger test --again$/);
  });

  it('comes to what the same readings from a file come to', async () => {
    const other = copyOf('samples/records');
    const answers = join(top, `samples/answers/${run}.yaml`);
    const answered = await heatledger(['test', '--answers', answers, '--workbook', other]);
    expect(answered.code).toBe(0);
    const [typed, filed] = [await figuresOf(whole.workbook), await figuresOf(other)];
    // The forms differ (°F, a sum, kg): the SI values may differ by rounding, 1e-12 of themselves.
    expect(typed[0]?.efficiency.value).toBeCloseTo(filed[0]?.efficiency.value as number, 10);
    expect(typed[0]?.efficiency.standardUncertainty).toBeCloseTo(
      filed[0]?.efficiency.standardUncertainty as number,
      10,
    );
  });

  it('keeps the first reading legible beside the second, and the exports byte for byte', () => {
    const journal = readFileSync(paths.journal(whole.workbook, run), 'utf8');
    for (const typed of ['9.3 lb', '5100+2758 g', '61 °F', '11.9', '1,871'])
      expect(journal).toContain(`"typed":"${typed}"`);
    // What was refused was never kept.
    expect(journal).not.toMatch(/"typed":"(170|1500|0\.412 kWh|785\.2|11)"/);
    const kept = Object.values(treeOf(join(paths.run(whole.workbook, run), 'exports')));
    const given = exports.map((name) => treeOf(join(top, 'samples/exports'))[name]);
    expect(kept.sort()).toEqual(given.sort());
  });

  // After the weighing that was mended, in the midst of the heating, and before the exports.
  it.each<[number, readonly string[]]>([
    [13, ['--resume', run]],
    [21, ['--resume']],
    [30, ['--resume', run]],
  ])('killed after %i answers and resumed comes to the very same figure', async (after, resume) => {
    const { workbook, code, screen, flowing } = await interrupted(after, resume);
    expect(code).toBe(0);
    expect(flowing).toMatch(
      /The program was ended while this run was open; going on from the last reading kept\./,
    );
    expect(screen).toMatch(new RegExp(`Going on with run ${run}: \\d+ readings are kept`));
    expect(await figuresOf(workbook)).toEqual(await figuresOf(whole.workbook));
    expect(Object.keys(treeOf(join(workbook, 'runs')))).toEqual(
      Object.keys(treeOf(join(whole.workbook, 'runs'))),
    );
  });
});

describe('stopping in the midst', () => {
  async function atEmptyVessel() {
    const { workbook, cwd } = bench();
    const clock = new BenchClock();
    const person = new Person(begin(workbook), clock, { cwd });
    await person.answers(work.slice(0, 7));
    await person.terminal.waitFor('Empty vessel');
    const resume = async () => {
      const second = new Person(['test', '--resume', '--workbook', workbook], clock, { cwd });
      await second.terminal.waitFor('Empty vessel');
      return second;
    };
    return { workbook, cwd, clock, person, resume };
  }

  it.each<[string, string]>([
    ['Ctrl-C', '\x03'],
    ['the end of input', '\x04'],
    ['the word pause', 'pause\r'],
  ])('by %s keeps everything and says how to go on', async (_what, keys) => {
    const { person, resume, workbook } = await atEmptyVessel();
    person.terminal.send(keys);
    const { code, screen } = await person.end();
    expect(code).toBe(0);
    expect(screen).toMatch(
      /Paused\. Everything typed is kept\. Next: heatledger test --resume vat-warmer-full-01/,
    );
    const second = await resume();
    expect(second.terminal.screen()).toMatch(/one reading is kept/);
    expect(second.terminal.screen()).not.toMatch(/was ended while/);
    second.terminal.type('pause');
    await second.end();
    const unfinished = await heatledger(['result', '--workbook', workbook]);
    expect(unfinished.stdout).toMatch(/No run counts yet[\s\S]*Next: heatledger test --resume/);
  });

  it('by a half-typed answer and a power cut keeps what was kept, not the half', async () => {
    const { person, resume, workbook } = await atEmptyVessel();
    const before = readFileSync(paths.journal(workbook, run), 'utf8');
    person.terminal.send('187');
    await until(() => person.terminal.screen().endsWith('187'), 'the half-typed answer');
    await person.terminal.kill('SIGKILL');
    expect(readFileSync(paths.journal(workbook, run), 'utf8')).toBe(before);
    await (await resume()).terminal.kill();
  });

  it('is not needed for a second terminal to be told who has the run', async () => {
    const { person, workbook } = await atEmptyVessel();
    const second = new Person(['test', '--resume', run, '--workbook', workbook], new BenchClock());
    const { code, flowing } = await second.end();
    expect(code).toBe(1);
    expect(flowing).toMatch(
      /Run vat-warmer-full-01 is open in process \d+, since .* Close the other terminal/,
    );
    person.terminal.send('\x03');
    expect((await person.end()).code).toBe(0);
  });

  it('with nothing to go on with says so', async () => {
    const { workbook } = bench();
    const nothing = await new Person(['test', '--resume', '--workbook', workbook], new BenchClock()).end();
    expect(nothing).toMatchObject({
      code: 1,
      screen: expect.stringMatching(/none to go on with/),
    });
    const again = await new Person(['test', '--again', '--workbook', workbook], new BenchClock()).end();
    expect(again).toMatchObject({ code: 1, screen: expect.stringMatching(/none to repeat/) });
  });
});

describe('a step that waits', () => {
  it('shows the time that goes by, and keeps what is being typed', async () => {
    const { workbook, cwd } = bench();
    const clock = new BenchClock();
    const typing = new Person(begin(workbook), clock, { cwd });
    await typing.answers(work.slice(0, 19));
    await typing.terminal.waitFor(/on the way/);
    typing.terminal.send('22');
    clock.passes(434);
    await until(
      () => /\[7:14\] Water temperature on the way.*: 22$/.test(typing.terminal.screen()),
      'a redrawn prompt with the time gone by and the 22',
    );
    clock.passes(10);
    await until(() => /\[7:24\] .*: 22$/.test(typing.terminal.screen()), 'the next redrawn prompt');
    typing.terminal.send('.3\r');
    await typing.terminal.waitFor('kept 22.3 °C');
    expect(typing.terminal.screen().match(/Water temperature on the way.*: 22/g)).toHaveLength(1);
    await typing.terminal.kill();
  });
});

describe('the same test once more', () => {
  it('asks for nothing that is known, and ends with two runs', async () => {
    const home = emptyFolder();
    const clock = new BenchClock();
    const heating = (empty: string, full: string, end: string): Answer[] => [
      { prompt: 'Cautions read', typed: '' },
      { prompt: /off and cold/, typed: '' },
      { prompt: 'Empty pot', typed: empty },
      { prompt: 'Pot with cold water', typed: full },
      { prompt: 'kWh reading now', typed: '' },
      { prompt: 'the water temperature', typed: '18' },
      { prompt: 'Switch on', typed: '' },
      { prompt: /switch off and press Enter/, typed: '', afterS: 600 },
      { prompt: 'Stir until it holds', typed: end },
      { prompt: 'Weigh the pot again', typed: '' },
      { prompt: 'kWh reading now', typed: '0.13' },
    ];
    const first = new Person(['test'], clock, { home });
    for (const prompt of [
      'What heater',
      'setting',
      'How much water',
      'made of',
      'Smallest step',
      'above the sea',
    ])
      await first.answer(prompt, prompt === 'What heater' ? 'Vat warmer' : '');
    await first.answers(heating('1484', '2984', '59.5'));
    expect((await first.end()).screen).toMatch(/\(one run; run-to-run scatter assumed, not seen\)/);
    const second = new Person(['test', '--again'], clock, { home });
    await second.answers(heating('1484', '2990', '60.1'));
    const { code, screen } = await second.end();
    expect(code).toBe(0);
    expect(screen).toMatch(/First heating: Vat warmer, full \(run vat-warmer-full-02\)/);
    expect(screen).toMatch(/\(two runs; run-to-run scatter assumed, not seen\)/);
    expect(second.answered).toBe(11);
  });
});
