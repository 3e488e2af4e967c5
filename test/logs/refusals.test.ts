import { describe, expect, it } from 'vitest';
import { type ReadOptions, readExport } from '../../src/logs/index.js';
import { errorOf, logOf } from './exportOf.js';

interface Refusal {
  readonly name: string;
  readonly text: string;
  readonly code: string;
  readonly line?: number;
  readonly says?: RegExp;
  readonly options?: ReadOptions;
}

const rows = 't [s],P [W]\n0,900\n1,901\n';
const refusals: readonly Refusal[] = [
  { name: 'a file of blanks', text: ' \n\n', code: 'log-empty' },
  { name: 'a text without a table', text: 'hello world\nagain\n', code: 'log-no-table' },
  { name: 'a header only', text: 't [s],P [W]\n', code: 'log-no-rows', line: 1, says: /t \[s\] \| P \[W\]/ },
  {
    name: 'no numeric column',
    text: 't [s],Colour,Gate\n0,red,5\n1,blue,6\n',
    code: 'log-no-numeric',
    line: 1,
    says: /--column power=2/,
  },
  {
    name: 'no time column',
    text: 'U [V],P [W]\n230,900\n231,901\n',
    code: 'log-no-time',
    line: 1,
    says: /--column/,
  },
  { name: 'no header', text: '0,900\n1,901\n', code: 'log-no-time', line: 1 },
  {
    name: 'an unknown unit',
    text: 't [s],P [hp]\n0,900\n1,901\n',
    code: 'log-unit-unknown',
    line: 1,
    says: /"hp".*W, kW, mW, MW/s,
  },
  {
    name: 'an unknown unit beside a known one',
    text: 't [s],P [hp],E [Wh]\n0,9,1\n1,9,2\n',
    code: 'log-unit-unknown',
    line: 1,
  },
  {
    name: 'a unit in the wrong case',
    text: 't [s],Power [mw]\n0,900\n',
    code: 'log-unit-unknown',
    line: 1,
    says: /"mw"/,
  },
  {
    name: 'no unit at all',
    text: 't [s],Power\n0,900\n1,901\n',
    code: 'log-unit-missing',
    line: 1,
    says: /--unit power=W/,
  },
  {
    name: 'a unit option of the wrong kind',
    text: rows,
    options: { units: { power: 'V' } },
    code: 'log-unit-unknown',
    says: /--unit power/,
  },
  {
    name: 'a column option without a column',
    text: rows,
    options: { columns: { power: 'Watts' } },
    code: 'log-column-missing',
    says: /"P \[W\]"/,
  },
  {
    name: 'a delimiter option that is none',
    text: rows,
    options: { delimiter: 'xx' },
    code: 'log-option-bad',
    says: /--delimiter/,
  },
  {
    name: 'a spoilt number',
    text: 't [s],P [W]\n0,900\n1,9x0\n2,901\n',
    code: 'log-cell-bad',
    line: 3,
    says: /"9x0".*P \[W\]/,
  },
  { name: 'hexadecimal', text: 't [s],P [W]\n0,900\n1,0x10\n2,901\n', code: 'log-cell-bad', line: 3 },
  {
    name: 'a number beyond all meters',
    text: 't [s],P [W]\n0,900\n1,1e300\n2,901\n',
    code: 'log-cell-bad',
    line: 3,
  },
  {
    name: 'a temperature below absolute zero',
    text: 't [s],T (°C)\n0,20\n1,-300\n2,21\n',
    code: 'log-cell-bad',
    line: 3,
  },
  {
    name: 'a unit of the wrong kind in a cell',
    text: 't [s],P [W]\n0,900 W\n1,230 V\n2,901 W\n',
    code: 'log-cell-bad',
    line: 3,
  },
  {
    name: 'a comma where points are used',
    text: 't [s];P [W]\n0;900.5\n1;900,5\n2;901.5\n',
    code: 'log-cell-bad',
    line: 3,
  },
  {
    name: 'a first row that is spoilt',
    text: 't [s],P [W]\nx,900\n1,901\n2,901\n',
    code: 'log-time-bad',
    line: 2,
    says: /"x"/,
  },
  {
    name: 'a spoilt time',
    text: 't [s],P [W]\n0,900\n1s2,901\n2,902\n',
    code: 'log-time-bad',
    line: 3,
    says: /"1s2"/,
  },
  {
    name: 'a row too short',
    text: 't [s],P [W]\n0,900\n1\n2,902\n',
    code: 'log-ragged',
    line: 3,
    says: /1 cells.*2 columns/,
  },
  { name: 'a row too long', text: 't [s],P [W]\n0,900\n1,901,7\n2,902\n', code: 'log-ragged', line: 3 },
  {
    name: 'a header too short',
    text: 't [s],P [W]\n0,900.5,7\n1,901.5,7\n',
    code: 'log-header-width',
    line: 1,
    says: /2 names.*3 cells/,
  },
  {
    name: 'a quote that stays open',
    text: 't [s],P [W]\n0,900\n1,"901\n2,902\n3,903\n',
    code: 'log-quote-open',
    line: 3,
  },
  {
    name: 'a clock that is set back',
    text: 't [s],P [W]\n0,900\n1,901\n2,901\n3,900\n0,900\n1,901\n9,900\n',
    code: 'log-time-backward',
    line: 6,
    says: /3 s/,
  },
  {
    name: 'a clock without a zone',
    text: 'Time,P [W]\n2026-03-01 10:00:00,900\n2026-03-01 10:00:01,901\n',
    code: 'log-zone-missing',
    line: 2,
    says: /--zone/,
  },
  {
    name: 'an unknown zone',
    text: 'Time,P [W]\n2026-03-01 10:00:00,900\n',
    options: { zone: 'Moon/Crater' },
    code: 'log-zone-unknown',
    says: /Moon\/Crater/,
  },
  {
    name: 'a date that is none',
    text: 'Time,P [W]\n2026-02-30T10:00:00Z,900\n2026-03-01T10:00:01Z,901\n',
    code: 'log-time-bad',
    line: 2,
    says: /2026-02-30/,
  },
  {
    name: 'dates of two orders',
    text: 'Time,P [W]\n13/01/2026 10:00Z,900\n01/14/2026 10:00Z,901\n',
    code: 'log-time-bad',
    line: 3,
    says: /day first/,
  },
  {
    name: 'day or month first',
    text: 'Time,P [W]\n03/04/2026 10:00:00Z,900\n03/04/2026 10:00:01Z,901\n',
    code: 'log-two-readings',
    line: 2,
    says: /2026-04-03.*2026-03-04[\s\S]*--time-form day-first/,
  },
  {
    name: 'decimal or thousands',
    text: 't [s];P [W]\n0;1,234\n1;1,235\n',
    code: 'log-two-readings',
    line: 2,
    says: /1234.*1\.234[\s\S]*--decimal/,
  },
  {
    name: 'a comma between columns and in numbers',
    text: 't [s],P [W]\n0,5,900,1\n1,0,901,2\n',
    code: 'log-two-readings',
    line: 2,
    says: /0 \| 5 \| 900 \| 1.*0,5 \| 900,1[\s\S]*--decimal/,
  },
  {
    name: 'a time without a unit',
    text: 'Time,P [W]\n0,900\n1,901\n',
    code: 'log-two-readings',
    line: 2,
    says: /--time-form elapsed-s/,
  },
  {
    name: 'hours or minutes',
    text: 'Time,P [W]\n0:00,900\n0:01,901\n',
    code: 'log-two-readings',
    line: 2,
    says: /--time-form elapsed-hms/,
  },
  {
    name: 'two power columns',
    text: 't [s],P1 [W],P2 [W]\n0,900,1\n1,901,1\n',
    code: 'log-two-readings',
    line: 1,
    says: /"P1 \[W\]".*"P2 \[W\]"[\s\S]*--column power/,
  },
  {
    name: 'words against unit',
    text: 't [s],Energy (W)\n0,900\n1,901\n',
    code: 'log-two-readings',
    line: 1,
    says: /energy.*power/,
  },
];

describe('bad input', () => {
  it.each(refusals.map((refusal) => [refusal.name, refusal] as const))('%s', (_name, refusal) => {
    const error = errorOf(() => logOf(refusal.text, refusal.options));
    expect(error.code, error.toText()).toBe(refusal.code);
    if (refusal.line !== undefined)
      expect(error.place).toMatchObject({ file: 'test.csv', line: refusal.line });
    if (refusal.says) expect(error.toText()).toMatch(refusal.says);
  });

  it('an empty file', () => {
    expect(errorOf(() => readExport(new Uint8Array())).code).toBe('log-empty');
  });

  it.each([
    ['NUL bytes', [0x74, 0x2c, 0x50, 0x0a, 0x00, 0x01], 2],
    ['control characters', [0x50, 0x4b, 0x03, 0x04, 0x14], 1],
  ])('a binary file: %s', (_name, bytes, line) => {
    const error = errorOf(() => readExport(Uint8Array.from(bytes), { fileName: 'sheet.csv' }));
    expect(error.code).toBe('log-binary');
    expect(error.place).toEqual({ file: 'sheet.csv', line });
  });

  it('UTF-16 with the big end first', () => {
    expect(errorOf(() => readExport(Uint8Array.of(0xfe, 0xff, 0, 0x74))).code).toBe('log-encoding');
  });
});

describe('the options settle what is open', () => {
  it('--time-form', () => {
    const text = 'Time,P [W]\n03/04/2026 10:00:00Z,900\n';
    expect(logOf(text, { timeForm: 'day-first' }).startUtcMs).toBe(Date.UTC(2026, 3, 3, 10));
    expect(logOf(text, { timeForm: 'month-first' }).startUtcMs).toBe(Date.UTC(2026, 2, 4, 10));
    expect([...logOf('Time,P [W]\n0:00,900\n0:01,901\n', { timeForm: 'elapsed-mmss' }).timesS]).toEqual([
      0, 1,
    ]);
    expect([...logOf('Time,P [W]\n0:00,900\n0:01,901\n', { timeForm: 'elapsed-hms' }).timesS]).toEqual([
      0, 60,
    ]);
    expect([...logOf('Time,P [W]\n0,900\n1,901\n', { timeForm: 'elapsed-h' }).timesS]).toEqual([0, 3600]);
  });
  it('--decimal', () => {
    const text = 't [s];P [W]\n0;1,234\n1;1,235\n';
    expect([...logOf(text, { decimal: ',' }).powerW!]).toEqual([1.234, 1.235]);
    expect([...logOf(text, { decimal: '.' }).powerW!]).toEqual([1234, 1235]);
  });
  it('--decimal for commas in both places', () => {
    const text = 't [s],P [W]\n0,5,900,1\n1,0,901,2\n';
    const paired = logOf(text, { decimal: ',' });
    expect([...paired.powerW!]).toEqual([900.1, 901.2]);
    expect([...paired.timesS]).toEqual([0, 0.5]);
    expect([...logOf(text, { decimal: '.' }).powerW!]).toEqual([5, 0]);
  });
  it('--delimiter, by sign or by name', () => {
    expect(logOf('t [s]\tP [W]\n0\t900\n', { delimiter: 'tab' }).rows).toBe(1);
    expect(logOf('t [s]:P [W]\n0:900\n1:901\n', { delimiter: ':' }).rows).toBe(2);
  });
  it('--column and --unit, by header and by number', () => {
    const log = logOf('0,900,20\n1,901,21\n', {
      columns: { time: '1', power: '2' },
      units: { power: 'kW' },
      timeForm: 'elapsed-s',
    });
    expect([...log.powerW!]).toEqual([900_000, 901_000]);
    expect(log.mapping.headerLine).toBeNull();
    const two = logOf('t [s],P1 [W],P2 [W]\n0,900,1\n1,901,2\n', { columns: { power: 'p2 [w]' } });
    expect([...two.powerW!]).toEqual([1, 2]);
    expect(two.mapping.columns.map(({ role }) => role)).toEqual(['time', 'ignored', 'power']);
  });
});
