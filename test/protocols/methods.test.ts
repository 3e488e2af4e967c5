import { describe, expect, it } from 'vitest';
import {
  dueFill,
  findProtocol,
  MemoryKeeper,
  parseProtocol,
  protocolJsonSchema,
  readyExport,
} from '../../src/protocols/index.js';
import type { RunRecord } from '../../src/workbook/index.js';
import { errorOf } from '../support/errorOf.js';
import { beginningOf, type good, goodAnswer, ScriptedBench, shipped, sit, typing } from './sitting.js';

const textOf = (name: string) => findProtocol(name, null).text;
const refusal = (name: string, from: string | RegExp, to: string) => {
  const text = textOf(name);
  const changed = text.replace(from, to);
  expect(changed).not.toBe(text);
  return errorOf(() => parseProtocol(changed, `${name}.yaml`));
};

describe('what a protocol evaluates', () => {
  it('is the efficiency where it does not say, as in the older protocols', () => {
    for (const name of ['first-heating', 'warm-start', 'water-heating']) {
      expect(textOf(name)).not.toMatch(/evaluates/);
      expect(shipped(name).evaluates).toBe('efficiency');
    }
  });
  it.each([
    ['cool-down', 'cool-down'],
    ['hold', 'hold'],
    ['boil-off', 'boil-off'],
    ['two-fills', 'efficiency'],
  ])('%s evaluates %s', (name, evaluates) => expect(shipped(name).evaluates).toBe(evaluates));
  it('stands in the schema for editors, with what is needed beside it', () => {
    const schema = JSON.stringify(protocolJsonSchema());
    for (const word of [
      'evaluates',
      'cool-down',
      'boil-off',
      'fills',
      'minimumDuration',
      'ambientTemperatureAfter',
    ])
      expect(schema).toContain(word);
  });

  it.each<[string, string, string | RegExp, string, RegExp, RegExp]>([
    [
      'a word it doesn’t know',
      'hold',
      'evaluates: hold',
      'evaluates: warming',
      /evaluates/,
      /hold or boil-off/,
    ],
    [
      'a cool-down without the room',
      'cool-down',
      '    role: ambientTemperature\n',
      '',
      /steps/,
      /exactly one step must have the role ambientTemperature, none has/,
    ],
    ['a hold without a beginning', 'hold', '    role: begin\n', '', /steps/, /the role begin, none has/],
    ['a hold without an end', 'hold', '    role: end\n', '', /steps/, /the role end, none has/],
    [
      'a boil-off without its second weighing',
      'boil-off',
      '    role: finalMass\n',
      '',
      /steps/,
      /finalMass, none/,
    ],
    [
      'a cool-down without any temperature',
      'cool-down',
      / {2}- id: interimTemperature[\s\S]*?(?=\n {2}- id: coolTo)| {2}- id: temperatureLog[\s\S]*?(?=\n {2}- id: remarks)/g,
      '',
      /steps/,
      /temperatureLog or interimTemperature/,
    ],
    [
      'a hold without its least time',
      'hold',
      / {2}minimumDuration.*\n/,
      '',
      /limits\.minimumDuration/,
      /is needed where a protocol evaluates hold/,
    ],
    [
      'an efficiency without a least rise',
      'water-heating',
      / {2}minimumRise.*\n/,
      '',
      /limits\.minimumRise/,
      /is needed where a protocol evaluates efficiency/,
    ],
    ['an efficiency without a definition', 'water-heating', 'headline: water\n', '', /headline/, /is needed/],
    ['fills that nobody asks for', 'two-fills', '    role: fill\n', '', /steps/, /the role fill, none has/],
    [
      'fills that the step doesn’t offer',
      'two-fills',
      'fills: [third, full]',
      'fills: [half, full]',
      /fills/,
      /offer the same fills/,
    ],
    [
      'a question for fills without a list of them',
      'two-fills',
      'fills: [third, full]\n',
      '',
      /fills/,
      /needs the list/,
    ],
    ['one fill', 'two-fills', 'fills: [third, full]', 'fills: [full]', /fills/, /2/],
    [
      'fills of a hold',
      'hold',
      'evaluates: hold\n',
      'evaluates: hold\nfills: [third, full]\n',
      /fills/,
      /fills belong to a protocol that evaluates efficiency/,
    ],
  ])('refuses %s', (_what, name, from, to, key, words) => {
    const error = refusal(name, from, to);
    expect(error.code).toBe('record-invalid');
    expect(error.place.key).toMatch(key);
    expect(error.message).toMatch(new RegExp(words, 'i'));
  });
});

describe('the fill that is due', () => {
  const protocol = shipped('two-fills');
  const run = (fill: string, more: Partial<RunRecord> = {}) =>
    ({
      protocol: { name: 'two-fills', version: 1, sha256: '' },
      choices: { fill },
      ended: true,
      excluded: null,
      ...more,
    }) as RunRecord;
  it.each<[string, RunRecord[], string, string]>([
    ['nothing was done yet', [], 'third', 'Due next: third (runs so far: third 0, full 0)'],
    ['a third is done', [run('third')], 'full', 'Due next: full (runs so far: third 1, full 0)'],
    [
      'one of each is done',
      [run('third'), run('full')],
      'third',
      'Due next: third (runs so far: third 1, full 1)',
    ],
    [
      'one is not finished',
      [run('third', { ended: false })],
      'third',
      'Due next: third (runs so far: third 0, full 0)',
    ],
    [
      'one was excluded',
      [run('third', { excluded: { reason: 'r', hand: 'mr', at: '', resultSeen: false } }), run('full')],
      'third',
      'Due next: third (runs so far: third 0, full 1)',
    ],
    [
      'another procedure used the word',
      [run('third', { protocol: { name: 'mine', version: 1, sha256: '' } })],
      'third',
      'Due next: third (runs so far: third 0, full 0)',
    ],
  ])('where %s', (_what, runs, fill, words) => {
    expect(dueFill(protocol, runs)).toMatchObject({ fill, words });
  });
  it('is none where a protocol has no fills', () => expect(dueFill(shipped('water-heating'), [])).toBeNull());
});

/** What a person would answer in the procedures that cool, hold and boil. */
const answers: Partial<typeof good> = {
  cautions: '',
  settled: 'yes',
  draughtFree: 'yes',
  steady: 'yes',
  boiling: 'yes',
  lid: '',
  ambientTemperature: '17 °C',
  ambientTemperatureAfter: '17.2',
  pressure: '',
  emptyWeight: '1871',
  fullWeight: '7858 g',
  startLog: '',
  coolFrom: '',
  coolTo: '',
  holdFrom: '',
  holdTo: '',
  interimTemperature: ['58.1', '55.0', ''],
  startTemperature: '65.0',
  endTemperature: '65.1',
  energyBefore: '1.200',
  switchOn: '',
  switchOff: '',
  finalWeight: '7512',
  energyAfter: '1.650 kWh',
  meterLog: '',
  temperatureLog: '',
  remarks: '',
};

describe('a sitting through', () => {
  it.each(['cool-down', 'hold', 'boil-off'])('%s ends', async (name) => {
    const { outcome, bench } = await sit((question) => goodAnswer(question, answers), {
      protocol: shipped(name),
    });
    expect(bench.refused).toEqual([]);
    expect(outcome).toBe('ended');
  });
});

describe('an answer that contradicts another is refused', () => {
  it.each<[string, string, string, RegExp]>([
    ['hold', 'endTemperature', '72', /moves by 5 K at most.*65 °C/],
    ['hold', 'energyAfter', '1.1 kWh', /must have gone up from .*1\.2 kWh/],
    ['cool-down', 'fullWeight', '1800 g', /must weigh more than the empty one/],
    ['boil-off', 'finalWeight', '8000 g', /can't weigh more than before/],
    ['boil-off', 'energyAfter', '1.3 kWh', /steam took about 0\.216 kWh, the meter would say 0\.100 kWh/],
    ['boil-off', 'energyAfter', '0.1 kWh', /must have gone up/],
  ])('%s: %s of %s', async (name, step, typed, words) => {
    const { bench } = await sit(typing(step, [typed], answers), { protocol: shipped(name) });
    expect(bench.refused.join('\n')).toMatch(words);
  });
  it('a heating still asks for a warmer end', async () => {
    const { bench } = await sit(typing('endTemperature', ['11']));
    expect(bench.refused.join('\n')).toMatch(/end must be warmer/);
  });
});

describe('the log of a hold', () => {
  it('may begin and end with the heater on, and must lie within its time', () => {
    const protocol = shipped('hold');
    const keeper = new MemoryKeeper(beginningOf(protocol));
    const bench = new ScriptedBench(() => '');
    const stamp = { zone: 'UTC', hand: 'mr' };
    const start = bench.now().getTime();
    const at = (minutes: number) => new Date(start + minutes * 60_000).toISOString();
    keeper.append({ event: 'mark', step: 'holdFrom', at: at(0), ...stamp });
    keeper.append({ event: 'mark', step: 'holdTo', at: at(60), ...stamp });
    const csv = (from: number) =>
      new TextEncoder().encode(
        `time,power_W\n${[0, 20, 40, 60].map((minutes) => `${at(from + minutes)},400\n`).join('')}`,
      );
    expect(readyExport(csv(0), 'hold.csv', keeper.run, protocol, 'UTC').role).toBe('powerLog');
    const error = errorOf(() => readyExport(csv(600), 'hold.csv', keeper.run, protocol, 'UTC'));
    expect(error.code).toBe('log-does-not-cover');
    expect(error.message).toMatch(/doesn't cover the hold: it runs from .*, the hold from/);
  });
});
