import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  createWorkbook,
  idField,
  idFrom,
  jsonSchemas,
  openWorkbook,
  paths,
  readRawRecord,
  saveHeater,
  saveInstrument,
} from '../../src/workbook/index.js';
import { errorOf } from '../support/errorOf.js';
import { emptyFolder, treeOf } from '../support/folders.js';
import { meterText, settings, workbookWith } from './benchBook.js';

const withMeter = (text: string | Uint8Array) => workbookWith({ 'instruments/meter.yaml': text });

const certificate = (points: string) =>
  `${meterText}certificate:\n  number: A-17\n  date: 2026-03-02\n  due: 2027-03-02\n  points:\n${points}`;

const bomb = ['a: &a [x, x, x, x, x, x, x, x, x]']
  .concat(...['b', 'c', 'd', 'e'].map((name, i) => `${name}: &${name} [${`*${'abcd'[i]}, `.repeat(9)}x]`))
  .join('\n');

describe('a record that is not in order is refused with file, line, key and what would be right', () => {
  it.each<[string, string, number | undefined, string | undefined, RegExp]>([
    [
      'an unknown unit',
      meterText.replace('kWh', 'kWx'),
      5,
      'resolution',
      /"kWx".*known are .*kWh.*"0.01 kWx"/,
    ],
    ['a unit of another kind', meterText.replace('kWh', 'kg'), 5, 'resolution', /measures mass; an energy/],
    ['a negative resolution', meterText.replace('0.01', '-0.01'), 5, 'resolution', /more than zero/],
    ['a resolution of zero', meterText.replace('0.01', '0'), 5, 'resolution', /more than zero/],
    [
      'a number of two meanings',
      meterText.replace('0.01', '1,484'),
      5,
      'resolution',
      /1484 kWh or 1.484 kWh/,
    ],
    [
      'no limits',
      meterText.replace(/limits:[\s\S]*/, ''),
      1,
      'limits',
      /limits or a certificate.*never zero/,
    ],
    ['empty limits', meterText.replace(/limits:[\s\S]*/, 'limits: {}\n'), 6, 'limits', /at least one limit/],
    ['a negative limit', meterText.replace('2 %', '-2 %'), 7, 'limits.ofReading', /not negative.*"-2 %"/],
    ['a limit of the range without one', `${meterText}  ofRange: 1 %\n`, 1, 'range', /needs the range/],
    ['half a digit', `${meterText}  digits: 1.5\n`, 8, 'limits.digits', /whole number is expected.*1.5/],
    ['another id than its name', meterText.replace('id: meter', 'id: other'), 2, 'id', /"other".*"meter"/],
    [
      'an unknown kind',
      meterText.replace('wattmeter', 'voltmeter'),
      3,
      'kind',
      /wattmeter, thermometer, scale/,
    ],
    ['no kind', meterText.replace(/kind.*\n/, ''), 1, 'kind', /missing; one of wattmeter/],
    ['a number for a text', meterText.replace('plug-in meter', '5'), 4, 'name', /a text is expected.*5/i],
    [
      'an unknown key',
      `${meterText}colour: red\n`,
      8,
      'colour',
      /"colour" is known here; check its spelling/,
    ],
    ['an unknown key inside', `${meterText}  colour: red\n`, 8, 'limits.colour', /"colour" is known here/],
    ['no version', meterText.replace(/schema.*\n/, ''), 1, 'schema', /missing; 1 is expected/],
    ['a newer version', meterText.replace('schema: 1', 'schema: 2'), 1, 'schema', /form 2.*newer.*form 1/],
    ['a version in quotes', meterText.replace('schema: 1', 'schema: "1"'), 1, 'schema', /1 is expected.*"1"/],
    ['a key twice', `${meterText}name: again\n`, 8, undefined, /second time/],
    ['a list', '- 1\n- 2\n', 1, undefined, /group of keys.*\[1,2\]/],
    ['a word', 'meter\n', 1, undefined, /group of keys.*"meter"/],
    ['nothing', '', undefined, undefined, /group of keys.*nothing/],
    ['a tab for blanks', `${meterText}\tname: x\n`, 8, undefined, /tab; blanks are expected/],
    [
      'a quotation cut off',
      `${meterText}remarks: "cut`,
      8,
      undefined,
      /quotation mark or bracket is missing/,
    ],
    ['two documents', `${meterText}---\nname: x\n`, 8, undefined, /second document/],
    ['an alias of nothing', `${meterText}remarks: *x\n`, undefined, undefined, /alias/i],
    ['aliases that grow without end', bomb, undefined, undefined, /aliases .* far more often/],
    ['ten thousand lists in lists', `a: ${'['.repeat(10_000)}`, 1, undefined, /nested far too deeply/],
    ['__proto__', `${meterText}__proto__:\n  polluted: 1\n`, 8, '__proto__', /"__proto__" is known here/],
    ['__proto__ inside', `${meterText}  __proto__: { polluted: 1 }\n`, 8, 'limits.__proto__', /known here/],
    [
      'constructor',
      `${meterText}constructor: { prototype: { polluted: 1 } }\n`,
      8,
      'constructor',
      /known here/,
    ],
    [
      'a day that never was',
      certificate('    - { at: 0 W, correction: 0 %, expandedUncertainty: 1 % }\n').replace('03-02', '02-30'),
      10,
      'certificate.date',
      /no such day.*2026-02-30/,
    ],
    [
      'points that go down',
      certificate(
        '    - { at: 9 W, correction: 0 %, expandedUncertainty: 1 % }\n    - { at: 5 W, correction: 0 %, expandedUncertainty: 1 % }\n',
      ),
      13,
      'certificate.points',
      /upwards/,
    ],
    [
      'a correction of another kind',
      certificate('    - { at: 9 W, correction: 0 K, expandedUncertainty: 1 % }\n'),
      13,
      'certificate.points.0.correction',
      /measures temperature/,
    ],
  ])('%s', (_what, text, line, key, words) => {
    const dir = withMeter(text);
    const before = treeOf(dir);
    const error = errorOf(() => openWorkbook(dir));
    expect(error.place).toMatchObject({
      file: join(dir, 'instruments/meter.yaml'),
      ...(line === undefined ? {} : { line }),
      ...(key === undefined ? {} : { key }),
    });
    if (line === undefined) expect(error.place.line).toBeUndefined();
    expect(error.message).toMatch(words);
    expect(treeOf(dir)).toEqual(before);
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
  });

  it.each<[string, Uint8Array, string, RegExp]>([
    ['zero bytes', Buffer.from(`${meterText}\0`), 'file-not-text', /zeros between its letters.*UTF-8/],
    ['UTF-16', Buffer.from(meterText, 'utf16le'), 'file-not-text', /UTF-16.*UTF-8/],
    [
      'five megabytes',
      Buffer.alloc(5_000_000, '# filler\n'),
      'file-too-large',
      /5000000 bytes.*at most 4000000/,
    ],
  ])('%s', (_what, bytes, code, words) => {
    const dir = withMeter(bytes);
    const error = errorOf(() => openWorkbook(dir));
    expect(error.code).toBe(code);
    expect(error.place.file).toBe(join(dir, 'instruments/meter.yaml'));
    expect(error.message).toMatch(words);
  });

  it.each<[string, string, string, RegExp]>([
    ['zone', 'zone: Europe/Vienna', 'zone: Middle/Earth', /zone database, such as Europe\/Vienna/],
    ['altitude', 'altitude: 1150 m', 'altitude: 1150 kg', /measures mass; a length is expected/],
    ['hands', 'hands:\n  - id: mr\n    name: M. R.\n', 'hands: []\n', /at least 1 entry/],
  ])('settings: %s', (key, from, to, words) => {
    const dir = workbookWith();
    const text = `schema: 1\nname: hill dairy\nzone: Europe/Vienna\naltitude: 1150 m\nhands:\n  - id: mr\n    name: M. R.\n`;
    writeFileSync(paths.settings(dir), text.replace(from, to));
    const error = errorOf(() => openWorkbook(dir));
    expect(error.place).toMatchObject({ file: paths.settings(dir), key });
    expect(error.place.line).toBe(text.split('\n').findIndex((line) => line.startsWith(key)) + 1);
    expect(error.message).toMatch(words);
  });

  it('takes a file with a byte-order mark, Windows line ends and a few aliases', () => {
    const text = `\uFEFF${meterText.replace('name: plug', 'name: &n plug')}remarks: *n\n`.replaceAll(
      '\n',
      '\r\n',
    );
    const meter = openWorkbook(withMeter(text)).instruments.get('meter');
    expect(meter).toMatchObject({ name: 'plug-in meter', remarks: 'plug-in meter', resolution: 36_000 });
  });
});

const hostile = [
  '../x',
  '..',
  '.',
  '',
  'a/b',
  'a\\b',
  '/etc/passwd',
  'CON',
  'con',
  'nul.txt',
  'com1',
  'Meter',
  'ÄHRE',
  'a b',
  'a..b',
  'a.',
  '.hidden',
  '-rf',
  'a\0b',
  'a\n',
  'x'.repeat(65),
  '__proto__',
];

describe('ids', () => {
  it.each(hostile)('%j is no id, and no path is made of it', (id) => {
    expect(idField.safeParse(id).success).toBe(false);
    const dir = workbookWith();
    const before = treeOf(dir);
    const raw = { schema: 1, id, kind: 'scale', name: 'x', resolution: '1 g', limits: { absolute: '2 g' } };
    expect(errorOf(() => saveInstrument(dir, raw)).place.key).toBe('id');
    expect(
      errorOf(() => saveHeater(dir, { schema: 1, id, name: 'x', settings: [{ id: 'on' }] })).place.key,
    ).toBe('id');
    expect(errorOf(() => paths.run(dir, id)).code).toBe('id-bad');
    expect(treeOf(dir)).toEqual(before);
  });

  it.each(['a', 'vat-warmer', 'meter_2.b', '900-w', 'console', 'x'.repeat(64)])('%s is one', (id) => {
    expect(idField.safeParse(id).success).toBe(true);
  });

  it.each([
    ['Vat warmer, 900 W', 'vat-warmer-900-w'],
    ['Kochplatte groß', 'kochplatte-gross'],
    ['Théière', 'theiere'],
    ['CON', 'item-con'],
    ['../../etc', 'etc'],
    ['電気', 'item'],
    ['x'.repeat(200), 'x'.repeat(48)],
  ])('%s becomes %s', (name, id) => {
    expect(idFrom(name)).toBe(id);
    expect(idField.safeParse(idFrom(name)).success).toBe(true);
  });
});

describe('a workbook', () => {
  it('is made with settings and schemas for editors, and is not made twice', () => {
    const dir = join(emptyFolder(), 'new', 'book');
    expect(createWorkbook(dir, settings).settings).toMatchObject({ altitude: 1150, units: 'si' });
    expect(Object.keys(treeOf(dir))).toEqual([
      ...Object.keys(jsonSchemas())
        .map((name) => `schemas/${name}.schema.json`)
        .sort(),
      'workbook.yaml',
    ]);
    const before = treeOf(dir);
    expect(errorOf(() => createWorkbook(dir, settings)).code).toBe('workbook-exists');
    expect(treeOf(dir)).toEqual(before);
  });

  it('is checked before it is made: bad settings leave no workbook', () => {
    const dir = join(emptyFolder(), 'book');
    expect(errorOf(() => createWorkbook(dir, { ...settings, zone: 'x' })).place.key).toBe('zone');
    expect(existsSync(dir)).toBe(false);
  });

  it('that is not there is missed with the command that makes one', () => {
    const error = errorOf(() => openWorkbook('/nowhere/at/all'));
    expect(error.code).toBe('workbook-missing');
    expect(error.toText()).toMatch(/--workbook DIR.*heatledger test/);
  });

  it('gives JSON Schemas that name the same keys', () => {
    const schema = jsonSchemas().heater as { properties: object; required: string[] };
    expect(Object.keys(schema.properties)).toEqual(expect.arrayContaining(['id', 'settings', 'vessel']));
    expect(schema.required).toEqual(expect.arrayContaining(['schema', 'id', 'name', 'settings']));
  });

  it('reads a raw record as it was written, before any schema', () => {
    const dir = emptyFolder();
    mkdirSync(join(dir, 'x'));
    writeFileSync(join(dir, 'meter.yaml'), meterText);
    expect(readRawRecord(join(dir, 'meter.yaml'))).toMatchObject({ id: 'meter', resolution: '0.01 kWh' });
    expect(errorOf(() => readRawRecord(join(dir, 'x'))).code).toBe('file-unreadable');
    expect(errorOf(() => readRawRecord(join(dir, 'none.yaml'))).code).toBe('file-missing');
  });
});
