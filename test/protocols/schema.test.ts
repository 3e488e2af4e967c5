import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  definitions,
  findProtocol,
  listProtocols,
  parseProtocol,
  protocolJsonSchema,
} from '../../src/protocols/index.js';
import { errorOf } from '../support/errorOf.js';
import { emptyFolder } from '../support/folders.js';

const names = listProtocols(null).map((each) => each.name);
const text = findProtocol('water-heating', null).text;
const lineOf = (part: string, changed: string) => changed.slice(0, changed.indexOf(part)).split('\n').length;

describe('the protocols that ship', () => {
  it('are these', () =>
    expect(names).toEqual([
      'boil-off',
      'cool-down',
      'first-heating',
      'hold',
      'two-fills',
      'warm-start',
      'water-heating',
    ]));

  it.each(names)('%s is in order', (name) => {
    const { protocol } = findProtocol(name, null);
    expect(protocol.name).toBe(name);
    expect(definitions).toContain(protocol.headline);
    expect(protocol.cautions.join(' ')).toMatch(/scald[\s\S]*residual-current[\s\S]*Local codes/);
    expect(protocol.steps[0]?.kind).toBe('acknowledge');
    // A rise of at least 30 K, an end below 80 °C, three runs a setting: the practice the protocol stands for.
    if (protocol.evaluates === 'efficiency')
      expect(protocol.limits).toMatchObject({ minimumRise: 30, maximumEnd: 353.15, minimumRuns: 3 });
    else expect(protocol.limits.minimumDuration).toBeGreaterThanOrEqual(15 * 60);
    expect(protocol.cautions.join(' ')).toMatch(/steam scald/);
    expect(protocol.cautions.join(' ')).toMatch(/[Nn]ever leave/);
    expect(protocol.allowances.every((each) => each.basis !== '')).toBe(true);
  });

  it.each(names)('%s asks short questions with a range that holds its default', (name) => {
    for (const step of findProtocol(name, null).protocol.steps) {
      expect(step.ask.length, step.ask).toBeLessThanOrEqual(100);
      if (step.kind === 'reading') expect(step.lowestSi).toBeLessThan(step.highestSi);
    }
  });
});

describe('a protocol that is not in order is refused with line, key and what would be right', () => {
  it.each<[string, string | RegExp, string, string, string, RegExp]>([
    [
      'an unknown kind of step',
      'kind: confirm',
      'kind: question',
      'question',
      'steps.1.kind',
      /one of acknowledge/i,
    ],
    [
      'an unknown role',
      'role: fullMass',
      'role: fulMass',
      'role: fulMass',
      'steps.7.role',
      /emptyMass, fullMass/,
    ],
    [
      'an unknown key',
      'role: fullMass',
      'colour: red\n    role: fullMass',
      'colour',
      'steps.7.colour',
      /"colour"/,
    ],
    ['a role that no step has', / {4}role: fullMass\n/, '', 'steps:', 'steps', /role fullMass, none has/],
    ['a role twice', 'role: fullMass', 'role: emptyMass', 'steps:', 'steps', /role emptyMass, 2 have/],
    [
      'two steps of one id',
      'id: fullWeight',
      'id: emptyWeight',
      '',
      'steps.7.id',
      /two steps carry this id/i,
    ],
    [
      'a step id with a blank',
      'id: fullWeight',
      'id: full weight',
      'full weight',
      'steps.7.id',
      /letters, digits/,
    ],
    [
      'a timer from nowhere',
      'timerFrom: switchOn',
      'timerFrom: on',
      '',
      'steps.12.timerFrom',
      /no earlier step/i,
    ],
    [
      'a timer from a later step',
      'timerFrom: switchOn',
      'timerFrom: switchOff',
      '',
      'steps.12.timerFrom',
      /earlier/,
    ],
    [
      'a range upside down',
      '[0 °C, 60 °C]',
      '[60 °C, 0 °C]',
      '[60',
      'steps.10.plausible',
      /lower end comes first/,
    ],
    [
      'a range of another kind',
      '[0 °C, 60 °C]',
      '[0 kg, 60 °C]',
      '[0 kg',
      'steps.10.plausible',
      /"kg" measures/,
    ],
    [
      'a unit of another kind',
      'unit: g',
      'unit: °F',
      'unit: °F',
      'steps.6.unit',
      /"°F" measures temperature/,
    ],
    [
      'a default of another kind',
      'default: 0 kWh',
      'default: 0 °C',
      'default: 0 °C',
      'steps.8.default',
      /"°C"/,
    ],
    [
      'repeated but not optional',
      /optional: true\n {4}repeat/,
      'repeat',
      'repeat: true',
      'steps.12.repeat',
      /optional/,
    ],
    ['a choice of one', '[on, off]', '[on]', '[on]', 'steps.3.options', /at least 2 entries/],
    [
      'no cautions first',
      / {2}- id: cautions[\s\S]*?\n\n/,
      '',
      '- id: atRest',
      'steps.0',
      /cautions acknowledged/,
    ],
    [
      'no cautions at all',
      /cautions:\n( {2}- .*\n)+/,
      'cautions: []\n',
      '[]',
      'cautions',
      /at least 1 entry/,
    ],
    [
      'an allowance in kg',
      'halfWidth: 0.1 K',
      'halfWidth: 0.1 kg',
      '0.1 kg',
      'allowances.0.halfWidth',
      /"kg"/,
    ],
    [
      'an allowance of zero',
      'halfWidth: 0.1 K',
      'halfWidth: 0 K',
      'halfWidth: 0 K',
      'allowances.0.halfWidth',
      /more than zero/,
    ],
    [
      'an allowance on nothing',
      'on: startTemperature',
      'on: weather',
      'weather',
      'allowances.0.on',
      /one of/i,
    ],
    [
      'a rise below zero',
      'minimumRise: 30 K',
      'minimumRise: -30 K',
      '-30 K',
      'limits.minimumRise',
      /more than zero/,
    ],
    ['no runs', 'minimumRuns: 3', 'minimumRuns: 0', 'minimumRuns: 0', 'limits.minimumRuns', /at least 1/],
    [
      'an unknown definition',
      'headline: water',
      'headline: steam',
      'steam',
      'headline',
      /water, water\+vessel/,
    ],
    ['a name with blanks', 'name: water-heating', 'name: water heating', '', 'name', /a-z, 0-9/],
    ['a newer version', 'schema: 1', 'schema: 9', 'schema: 9', 'schema', /newer/],
  ])('%s', (_what, from, to, at, key, words) => {
    const changed = text.replace(from, to);
    expect(changed).not.toBe(text);
    const error = errorOf(() => parseProtocol(changed, 'my.yaml'));
    expect(error.place).toMatchObject({ file: 'my.yaml', key });
    expect(error.place.line).toBeGreaterThan(0);
    if (at !== '' && key !== 'steps') expect(error.place.line).toBe(lineOf(at, changed));
    expect(error.message).toMatch(words);
  });
});

describe('finding a protocol', () => {
  const bookWith = (name: string, content: string) => {
    const dir = emptyFolder();
    mkdirSync(join(dir, 'protocols'));
    writeFileSync(join(dir, 'protocols', name), content);
    return dir;
  };

  it("prefers the workbook's own, and lists it as that", () => {
    const dir = bookWith('water-heating.yaml', text.replace('version: 1', 'version: 7'));
    expect(findProtocol('water-heating', dir).protocol.version).toBe(7);
    expect(listProtocols(dir).find((each) => each.name === 'water-heating')?.from).toBe('workbook');
    expect(listProtocols(dir).find((each) => each.name === 'warm-start')?.from).toBe('shipped');
  });

  it('says which there are', () => {
    expect(errorOf(() => findProtocol('fizzing', null)).message).toMatch(
      /"fizzing".*first-heating, hold, two-fills, warm-start/,
    );
    expect(errorOf(() => findProtocol('../x', null)).code).toBe('id-bad');
  });

  it('refuses one that calls itself otherwise', () => {
    const error = errorOf(() => findProtocol('mine', bookWith('mine.yaml', text)));
    expect(error).toMatchObject({ code: 'record-misnamed', place: { key: 'name' } });
  });
});

describe('the JSON Schema of a protocol, for editors', () => {
  it('names the keys that a person writes', () => {
    const schema = protocolJsonSchema() as {
      type: string;
      properties: Record<string, unknown>;
      required: string[];
    };
    expect(schema.type).toBe('object');
    expect(Object.keys(schema.properties)).toEqual(
      expect.arrayContaining(['name', 'cautions', 'allowances', 'steps']),
    );
    // What has a default need not be written.
    expect(schema.required).toContain('steps');
    expect(schema.required).not.toContain('allowances');
  });
});
