import { describe, expect, it } from 'vitest';
import { describeLog, type ReadOptions, readExport } from '../../src/logs/index.js';
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
  {
    name: 'energy that goes up and down',
    text: 't [s],E [Wh]\n0,0\n1,2.5\n2,2.4\n3,2.5\n4,2.4\n5,0\n',
    code: 'log-two-readings',
    line: 1,
    says: /counter.*energy of each interval[\s\S]*--column energy=.*--column ignored=2/,
  },
  {
    name: 'kelvin that may be degrees of a thermocouple of type K',
    text: 't [s],T1 (K)\n0,20.5\n1,20.6\n',
    code: 'log-two-readings',
    line: 1,
    says: /kelvin.*type K[\s\S]*--unit temperature=K/,
  },
  {
    name: 'joules that may be degrees of a thermocouple of type J',
    text: 't [s],T1 (J)\n0,20.5\n1,20.6\n',
    code: 'log-two-readings',
    line: 1,
    says: /type J.*energy in J/,
  },
  {
    name: 'a power factor that may be in percent',
    text: 't [s],U [V],I [A],PF\n0,230,4,98\n1,230,4,98\n',
    code: 'log-two-readings',
    line: 1,
    says: /percent[\s\S]*--unit powerFactor=%/,
  },
  {
    name: 'kilowatts that are a thousand times volts and amperes',
    text: 't [s],U [V],I [A],P [kW]\n0,230,4,920\n1,230,4,921\n',
    code: 'log-two-readings',
    line: 1,
    says: /kW.*1000 times[\s\S]*--unit power=W/,
  },
  {
    name: 'seconds of the size of epoch milliseconds',
    text: 'Time (s),P [W]\n1772359200000,900\n1772359201000,901\n',
    code: 'log-two-readings',
    line: 2,
    says: /--time-form elapsed-s or --time-form epoch-ms/,
  },
  {
    name: 'an uptime of the size of epoch seconds',
    text: 'uptime,P [W]\n1772359200,900\n1772359700,901\n',
    code: 'log-two-readings',
    line: 2,
    says: /--time-form elapsed-ms or --time-form epoch-s/,
  },
  {
    name: 'whole numbers of the size of spreadsheet days',
    text: 'Time,P [W]\n46300,900\n46301,901\n',
    code: 'log-two-readings',
    line: 2,
    says: /days of a spreadsheet[\s\S]*elapsed-ms or serial-days/,
  },
  {
    name: 'spreadsheet days with too few decimals',
    text: 'Time,P [W]\n46300.4271,900\n46300.4278,901\n',
    code: 'log-two-readings',
    line: 2,
    says: /serial-days/,
  },
  {
    name: 'spreadsheet days without a zone',
    text: 'Time,P [W]\n46300.427083,900\n46300.427095,901\n',
    code: 'log-zone-missing',
    line: 2,
    says: /2026-10-05[\s\S]*--zone/,
  },
  {
    name: 'stated spreadsheet days that are none',
    text: 'Time,P [W]\n0.427083,900\n0.427095,901\n',
    options: { timeForm: 'serial-days', zone: 'UTC' },
    code: 'log-time-bad',
    line: 2,
    says: /"0.427083".*days since 1899-12-30/,
  },
  {
    name: 'three orders of a date',
    text: 'Time,P [W]\n03/04/05 10:00:00Z,900\n03/04/05 10:00:01Z,901\n',
    code: 'log-two-readings',
    line: 2,
    says: /2005-04-03.*2005-03-04.*2003-04-05/,
  },
  {
    name: 'a day that its year does not have',
    text: 'Time,P [W]\n2026-365T10:00:00Z,900\n2026-366T10:00:01Z,901\n2026-365T10:00:02Z,902\n',
    code: 'log-time-bad',
    line: 3,
    says: /"2026-366".*calendar/,
  },
  {
    name: 'a week that its year does not have',
    text: 'Time,P [W]\n2025-W52-1T10:00:00Z,900\n2025-W53-1T10:00:01Z,901\n2025-W52-1T10:00:02Z,902\n',
    code: 'log-time-bad',
    line: 3,
    says: /"2025-W53-1".*calendar/,
  },
  {
    name: 'a day that its month does not have, by name',
    text: 'Time,P [W]\n28 Feb 2026 10:00:00Z,900\n30 Feb 2026 10:00:01Z,901\n',
    code: 'log-time-bad',
    line: 3,
    says: /"30 Feb 2026".*calendar/,
  },
  {
    name: 'dates written in two ways',
    text: 'Time,P [W]\n2026-10-05T10:00:00Z,900\n5 Oct 2026 10:00:01Z,901\n2026-10-05T10:00:02Z,902\n',
    code: 'log-time-bad',
    line: 3,
    says: /"5 Oct 2026".*written like "2026-10-05"/,
  },
  {
    name: 'a time after midnight at the end of a day',
    text: 'Time,P [W]\n2026-10-05T23:59:00Z,900\n2026-10-05T24:15:00Z,901\n2026-10-06T00:20:00Z,902\n',
    code: 'log-time-bad',
    line: 3,
    says: /24:15/,
  },
  {
    name: 'an offset of no place on Earth',
    text: 'Time,P [W]\n2026-10-05T23:59:00+25:00,900\n2026-10-05T23:59:10+25:00,901\n',
    code: 'log-time-bad',
    line: 2,
    says: /\+25:00/,
  },
  {
    name: 'a date without its year',
    text: 'Time,P [W],U [V]\nOct 5 10:15:00,900,230\nOct 5 10:15:01,901,230\n',
    code: 'log-time-bad',
    line: 2,
    says: /Oct 5 10:15:00.*year/,
  },
  {
    name: 'minutes and seconds beside a date',
    text: 'Date,Time,P [W]\n2026-10-05,10:15.5,900\n2026-10-05,10:15.6,901\n',
    options: { zone: 'UTC' },
    code: 'log-time-bad',
    line: 2,
    says: /hours, minutes and seconds/,
  },
  {
    name: 'a date column of digits that are no date with the year in front',
    text: 'Date,Time,P [W]\n05102026,10:15:00,900\n05102026,10:15:01,901\n',
    options: { zone: 'UTC' },
    code: 'log-time-bad',
    line: 2,
    says: /05102026.*20261005[\s\S]*--column ignored=1/,
  },
  {
    name: 'differences in place of times',
    text: 'dt [s],P [W]\n10,900\n10,901\n',
    code: 'log-no-time',
    line: 1,
    says: /--interval 10s/,
  },
  {
    name: 'one column and no interval',
    text: 'P [W]\n900\n901\n',
    code: 'log-no-time',
    says: /--interval 10s/,
  },
  {
    name: 'an interval beside a time column',
    text: rows,
    options: { intervalS: 10 },
    code: 'log-two-readings',
    line: 1,
    says: /"t \[s\]".*count of rows, 10 s each[\s\S]*--time-form row-count/,
  },
  ...[0, -1, Number.NaN, Number.POSITIVE_INFINITY].map((intervalS) => ({
    name: `an interval of ${intervalS} s`,
    text: 'P [W],U [V]\n900,230\n',
    options: { intervalS },
    code: 'log-option-bad',
    says: /--interval.*above zero/,
  })),
  {
    name: 'an interval with another form of time',
    text: 'P [W],U [V]\n900,230\n',
    options: { intervalS: 10, timeForm: 'iso' },
    code: 'log-option-bad',
    says: /row-count/,
  },
  {
    name: 'a count of rows without an interval',
    text: 'P [W],U [V]\n900,230\n',
    options: { timeForm: 'row-count' },
    code: 'log-option-bad',
    says: /--interval 10s/,
  },
  {
    name: 'a form of time that is none',
    text: rows,
    options: { timeForm: 'serial' as 'iso' },
    code: 'log-option-bad',
    says: /serial-days/,
  },
  {
    name: 'a form of time that no column has',
    text: rows,
    options: { timeForm: 'day-first' },
    code: 'log-time-bad',
    says: /day-first/,
  },
  {
    name: 'a column named twice',
    text: 't [s],P [W],P [W]\n0,900,1\n',
    options: { columns: { power: 'P [W]' } },
    code: 'log-two-readings',
    line: 1,
    says: /column 2, or column 3[\s\S]*--column power=2/,
  },
  {
    name: 'two power columns of one name',
    text: 't [s],P [W],P [W]\n0,900,1\n',
    code: 'log-two-readings',
    line: 1,
    says: /"P \[W\]" \(column 2\), or "P \[W\]" \(column 3\)/,
  },
  {
    name: 'one column of numbers with commas, or two without',
    text: '900,5\n901,5\n',
    options: { intervalS: 1, columns: { power: '1' }, units: { power: 'W' } },
    code: 'log-two-readings',
    line: 1,
    says: /one cell 900,5, or .* the 2 cells 900 \| 5[\s\S]*--delimiter/,
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
});

describe('texts stay short', () => {
  it('where there are many columns', () => {
    const numbers = Array.from({ length: 5000 }, (_, index) => index);
    const text = `${numbers.map((n) => `c${n}`).join()}\n${numbers.join()}\n${numbers.join()}\n`;
    const missing = errorOf(() => logOf(text)).toText();
    expect(missing).toMatch(/"c0", .*"c9" and 4990 more/);
    expect(missing.length).toBeLessThan(600);
    const unnamed = errorOf(() => logOf(text, { columns: { power: 'x'.repeat(9999) } })).toText();
    expect(unnamed.length).toBeLessThan(600);
    const read = describeLog(
      logOf(text, { columns: { time: '1', power: '2' }, units: { time: 's', power: 'W' } }),
    );
    expect(read.at(-1)).toMatch(/^Not read: "c2", .*"c11" and 4988 more\.$/);
  });
  it('where a header or a cell is of monstrous length', () => {
    const long = 'x'.repeat(100_000);
    for (const line of describeLog(
      logOf(`t [s],${long} [W],${long}\n0,900,a\n`, { units: { power: 'W' }, columns: { power: '2' } }),
    ))
      expect(line.length).toBeLessThan(200);
    expect(
      errorOf(() => logOf(`t [s];${long} [W]\n0;1,234\n`, { columns: { energy: '2' } })).toText().length,
    ).toBeLessThan(600);
    expect(errorOf(() => logOf(`Time,P [W]\n9${long},900\n`)).toText().length).toBeLessThan(600);
  });
});

describe('the options settle what is open', () => {
  it('--interval, beside a time column with --time-form row-count', () => {
    const log = logOf(rows, { intervalS: 2.5, timeForm: 'row-count' });
    expect([...log.timesS]).toEqual([0, 2.5]);
    expect(log.mapping.columns.map(({ role }) => role)).toEqual(['ignored', 'power']);
  });
  it('--unit for kelvin, percent and watts that were doubted', () => {
    const warm = 't [s],T1 (K)\n0,20.5\n1,20.6\n';
    expect(logOf(warm, { units: { temperature: 'K' } }).temperatureK![0]).toBe(20.5);
    expect(logOf(warm, { units: { temperature: '°C' } }).temperatureK![0]).toBeCloseTo(293.65, 10);
    const factor = 't [s],U [V],I [A],PF\n0,200,5,98\n1,200,5,98\n';
    expect(logOf(factor, { units: { powerFactor: '%' } }).powerW![0]).toBeCloseTo(980, 9);
    const power = 't [s],U [V],I [A],P [kW]\n0,230,4,920\n1,230,4,921\n';
    expect([...logOf(power, { units: { power: 'W' } }).powerW!]).toEqual([920, 921]);
  });
  it('--column for energy and degrees that were doubted', () => {
    const hovering = 't [s],P [W],E [Wh]\n0,9,0\n1,9,2.5\n2,9,2.4\n3,9,2.5\n4,9,0\n';
    expect([...logOf(hovering, { columns: { energy: 'E [Wh]' } }).energyJ!]).toEqual([
      0, 9000, 8640, 9000, 0,
    ]);
    expect(logOf(hovering, { columns: { ignored: '3' } }).energyJ).toBeNull();
    const typeJ = 't [s],T1 (J)\n0,20.5\n1,20.6\n';
    const log = logOf(typeJ, { columns: { temperature: '2' }, units: { temperature: '°C' } });
    expect(log.temperatureK![0]).toBeCloseTo(293.65, 10);
  });
  it('a named month needs no --time-form, and another one does no harm', () => {
    const text = 'Time,P [W]\n05-Oct-2026 10:15:00Z,900\n';
    expect(logOf(text, { timeForm: 'month-first' }).startUtcMs).toBe(Date.UTC(2026, 9, 5, 10, 15));
  });
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
