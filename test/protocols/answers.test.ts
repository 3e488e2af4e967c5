import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { HeatledgerError } from '../../src/errors/index.js';
import {
  AnswersBench,
  MemoryKeeper,
  nextStep,
  readAnswers,
  strayAnswers,
  walk,
} from '../../src/protocols/index.js';
import { errorOf } from '../support/errorOf.js';
import { emptyFolder } from '../support/folders.js';
import { beginningOf, good, shipped } from './sitting.js';

const protocol = shipped('water-heating');

/** A file of answers with one line an answer from line 5 on; some replaced, some left out. */
function fileWith(changes: Readonly<Record<string, string | null>> = {}, head = ''): string {
  const lines = protocol.steps.flatMap((step) => {
    if (step.id === 'pressure') return [];
    const change = changes[step.id];
    if (change === null) return [];
    const values = change !== undefined ? [change] : [good[step.id] as string | readonly string[]].flat();
    return values.map((value) => `  - { step: ${step.id}, value: ${JSON.stringify(value)} }`);
  });
  const file = join(emptyFolder(), 'answers.yaml');
  writeFileSync(file, `schema: 1\nheater: vat-warmer\nsetting: full\n${head}answers:\n${lines.join('\n')}\n`);
  return file;
}

async function walked(file: string, keeper = new MemoryKeeper(beginningOf(protocol))) {
  const answers = readAnswers(file);
  const outcome = await walk({
    protocol,
    keeper,
    bench: new AnswersBench(answers, () => {}),
    hand: 'mr',
    zone: 'UTC',
    units: 'si',
    base: answers.base,
  });
  return { outcome, run: keeper.run, waiting: nextStep(protocol, keeper.run)?.id ?? null };
}

const lineOf = (file: string, step: string) =>
  (readAnswers(file).answers.findIndex((answer) => answer.step === step) ?? 0) + 5;

describe('a file of answers', () => {
  it('walks a protocol to its end', async () => {
    const { outcome, run } = await walked(fileWith());
    expect(outcome).toBe('ended');
    expect(run.readings.map((each) => each.step)).toEqual([
      'ambientTemperature',
      'emptyWeight',
      'fullWeight',
      'energyBefore',
      'startTemperature',
      'interimTemperature',
      'interimTemperature',
      'endTemperature',
      'finalWeight',
      'energyAfter',
    ]);
  });

  it('gives the times of its answers to the journal', async () => {
    const file = join(emptyFolder(), 'answers.yaml');
    const at = '2026-10-05T09:10:00+02:00';
    writeFileSync(
      file,
      `schema: 1\nheater: h\nsetting: s\nanswers:\n  - { step: cautions, value: yes, at: "${at}" }\n  - { step: atRest, value: pause }\n`,
    );
    const { run, outcome } = await walked(file);
    expect([run.marks.cautions, outcome]).toEqual(['2026-10-05T07:10:00.000Z', 'paused']);
  });

  it('takes yes, no and numbers as YAML reads them', () => {
    const file = join(emptyFolder(), 'answers.yaml');
    writeFileSync(
      file,
      'schema: 1\nheater: h\nsetting: s\nanswers:\n  - { step: a, value: true }\n  - { step: b, value: false }\n  - { step: c, value: 7858 }\n',
    );
    expect(readAnswers(file).answers.map((each) => each.value)).toEqual(['yes', 'no', '7858']);
  });

  it('leaves out what may be left out', async () => {
    const { run, outcome } = await walked(
      fileWith({ finalWeight: null, meterLog: null, remarks: null, energyBefore: null, lid: null }),
    );
    expect(outcome).toBe('ended');
    expect([...run.skipped].sort()).toEqual(
      ['finalWeight', 'interimTemperature', 'meterLog', 'remarks', 'temperatureLog'].sort(),
    );
    expect(run.readings.find((each) => each.step === 'energyBefore')?.si).toBe(0);
    expect(run.choices.lid).toBe('on');
  });

  it('goes on where a run stopped', async () => {
    const half = await walked(fileWith({ switchOff: 'pause' }));
    expect([half.outcome, half.waiting]).toEqual(['paused', 'switchOff']);
    const { run, outcome } = await walked(fileWith(), new MemoryKeeper(half.run));
    expect(outcome).toBe('ended');
    expect(run.readings).toHaveLength(10);
  });

  it.each<[string, Record<string, string>, RegExp]>([
    [
      'a wrong unit',
      { fullWeight: '7858 kWh' },
      /"7858 kWh" to the step "fullWeight" can't be kept\. "kWh" measures/,
    ],
    ['out of range', { startTemperature: '119' }, /outside the plausible range of 0 to 60 °C/],
    ['a contradiction', { energyAfter: '0.036' }, /Check the decimal point and the unit/],
    ['a number of two meanings', { fullWeight: '7,858' }, /1\) 7858 g or 2\) 7\.858 g/],
    ['an export that is not there', { meterLog: 'none.csv' }, /There is no file none\.csv/],
    ['a no', { atRest: 'no' }, /Let it cool first/],
    ['a question', { fullWeight: '?' }, /for the terminal; a file holds the right answer/],
    ['back', { fullWeight: ' BACK ' }, /for the terminal/],
    ['no choice', { lid: 'ajar' }, /one of: on, off/],
  ])('with %s is refused with file and line', async (_what, changes, words) => {
    const file = fileWith(changes);
    const error = await walked(file).then(
      () => new Error('nothing was thrown'),
      (thrown: unknown) => thrown,
    );
    expect(error).toBeInstanceOf(HeatledgerError);
    const { place, message } = error as HeatledgerError;
    expect(message).toMatch(words);
    const step = Object.keys(changes)[0] as string;
    expect(place).toMatchObject({ file, line: lineOf(file, step) });
  });

  it('with an answer missing is refused with the step and its question', async () => {
    const file = fileWith({ fullWeight: null });
    const error = (await walked(file).catch((thrown: unknown) => thrown)) as HeatledgerError;
    expect(error).toMatchObject({ code: 'answer-missing', place: { file, key: 'answers' } });
    expect(error.message).toMatch(/"fullWeight" \(Vessel with the water/);
  });

  it('with a step that no protocol has is pointed at', () => {
    const answers = readAnswers(fileWith({}, ''));
    const steps = protocol.steps.map((step) => step.id);
    expect(strayAnswers(answers, steps)).toEqual([]);
    expect(
      strayAnswers(
        answers,
        steps.filter((step) => step !== 'lid'),
      ),
    ).toEqual([{ step: 'lid', line: 8 }]);
  });

  it.each<[string, string, string, RegExp]>([
    ['no answers', 'answers: []\n', 'answers', /at least 1 entry/],
    ['an unknown key', 'answers:\n  - { step: a, value: b, when: c }\n', 'answers.0.when', /"when"/],
    [
      'a time without its offset',
      'answers:\n  - { step: a, value: b, at: 2026-10-05T09:10 }\n',
      'answers.0.at',
      /offset/,
    ],
    [
      'a list for a value',
      'answers:\n  - { step: a, value: [1] }\n',
      'answers.0.value',
      /a text, a number or true or false/i,
    ],
    [
      'an unknown instrument',
      'instruments: { clock: c }\nanswers:\n  - { step: a, value: b }\n',
      'instruments.clock',
      /./,
    ],
  ])('of a wrong form is refused: %s', (_what, text, key, words) => {
    const file = join(emptyFolder(), 'answers.yaml');
    writeFileSync(file, `schema: 1\nheater: h\nsetting: s\n${text}`);
    const error = errorOf(() => readAnswers(file));
    expect(error.place).toMatchObject({ file, key });
    expect(error.place.line).toBeGreaterThan(3);
    expect(error.message).toMatch(words);
  });
});
