import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { columnRoles, timeForms } from '../../src/logs/index.js';
import { exportPath, readProblem } from '../../src/protocols/index.js';
import { copyOf, emptyFolder, treeOf } from '../support/folders.js';
import { runLine, runLineJson } from '../support/inProcess.js';
import { heatledger } from '../support/program.js';

const plain = 't [s],P [W]\n0,900\n10,900\n20,900\n';

function exportWith(text: string, name = 'meter.csv'): string {
  const file = join(emptyFolder(), name);
  writeFileSync(file, text);
  return file;
}

describe('options of reading', () => {
  it.each<[string, readonly string[], RegExp]>([
    [
      'a form of time that is none',
      ['--time-form', 'daily'],
      /--time-form: "daily" can't be used here; one of elapsed-s, elapsed-ms, .*serial-days, row-count was expected/,
    ],
    [
      'a role that is none',
      ['--column', 'pwer=2'],
      /--column: "pwer" can't be used here; one of the roles time, date, power, .*ignored was expected/,
    ],
    [
      'a column without a role',
      ['--column', '2'],
      /--column is written as role=value, such as power=3; this was "2"/,
    ],
    ['a role without a column', ['--column', 'power='], /--column is written as role=value/],
    [
      'two columns for one role',
      ['--column', 'power=2', '--column', 'power=1'],
      /--column: "power=1" can't be used here; power only once \(it was 2 before\) was expected/,
    ],
    [
      'a column that is not there',
      ['--column', 'power=Q'],
      /There is no column "Q"\. The columns are "t \[s\]", "P \[W\]"/,
    ],
    [
      'a unit of a role that has none',
      ['--unit', 'date=d'],
      /--unit: "date" can't be used here; one of the roles time, power, /,
    ],
    [
      'a unit of another kind',
      ['--unit', 'power=Wh'],
      /--unit power.*The unit "Wh" of "P \[W\]" is unknown\. One of W, kW, /,
    ],
    ['a zone that is none', ['--zone', 'Dairy/Hill'], /--zone: The time zone "Dairy\/Hill" is unknown/],
    ['an offset that is none', ['--zone', '+25:00'], /--zone: The time zone "\+25:00" is unknown/],
    [
      'a decimal sign that is none',
      ['--decimal', ';'],
      /--decimal: ";" can't be used here; a point \(\.\) or a comma \(,\) was expected/,
    ],
    [
      'a delimiter of two signs',
      ['--delimiter', '::'],
      /--delimiter: "::" can't be used here; one sign: comma, semicolon, tab or pipe was expected/,
    ],
    [
      'an interval without a number',
      ['--interval', 'soon'],
      /--interval: "soon" can't be used here; a time from row to row above zero, such as 10s or 1 min, was expected/,
    ],
    [
      'an interval in another unit',
      ['--interval', '10 kg'],
      /--interval: "10 kg" can't be used here; a time from row to row above zero/,
    ],
    [
      'an interval of nothing',
      ['--interval', '0 s'],
      /--interval: "0 s" can't be used here; a time from row to row above zero, such as 10s or 1 min, was expected/,
    ],
    ['an interval of two meanings', ['--interval', '1:00'], /--interval: "1:00" may mean 60 s or 3600 s/],
    [
      'an interval beside times',
      ['--interval', '10s'],
      /The time can be read in two ways: from "t \[s\]", or from the count of rows, 10 s each/,
    ],
    [
      'a count of rows without an interval',
      ['--time-form', 'row-count'],
      /the time from row to row beside it, such as --interval 10s, was expected/,
    ],
  ])('%s', async (_what, options, words) => {
    const { code, stdout, stderr } = await runLine(['import', exportWith(plain), '--look', ...options]);
    expect([code, stdout]).toEqual([1, '']);
    expect(stderr).toMatch(words);
  });

  it('name every form of time, and every role', async () => {
    const wrongForm = await runLine(['import', exportWith(plain), '--look', '--time-form', 'x']);
    for (const form of timeForms) expect(wrongForm.stderr).toContain(form);
    const wrongRole = await runLine(['import', exportWith(plain), '--look', '--column', 'x=1']);
    for (const role of columnRoles) expect(wrongRole.stderr).toContain(role);
  });

  it.each<[string, number]>([
    ['10s', 20],
    ['10', 20],
    ['0,5 min', 60],
    ['1 min', 120],
    ['250 ms', 0.5],
  ])('--interval %s counts the rows', async (interval, durationS) => {
    const file = exportWith('P [W]\n900\n900\n900\n');
    const seen = await runLineJson<{ durationS: number; words: string[] }>([
      'import',
      file,
      '--look',
      '--interval',
      interval,
    ]);
    expect(seen.durationS).toBeCloseTo(durationS, 12);
    expect(seen.words.join('\n')).toMatch(/Time: no column; the rows are counted/);
  });

  it('may be given several times, before the file and after it', async () => {
    const file = exportWith('a,b,c\n0,900,5\n1,900,6\n');
    type Look = { columns: Record<string, { column: number; unit: string }>; durationS: number };
    const options = ['--column', 'time=1', '--column', 'power=2', '--time-form', 'elapsed-min'];
    for (const line of [
      [
        'import',
        ...options,
        file,
        '--look',
        '--column',
        'energy=3',
        '--unit',
        'power=W',
        '--unit',
        'energy=Wh',
      ],
      [
        'import',
        '--unit',
        'power=W',
        '--unit',
        'energy=Wh',
        '--column',
        'energy=3',
        ...options,
        '--look',
        file,
      ],
    ]) {
      const { columns, durationS } = await runLineJson<Look>(line);
      expect(columns).toMatchObject({ power: { column: 2, unit: 'W' }, energy: { column: 3, unit: 'Wh' } });
      expect(durationS).toBe(60);
    }
  });

  it('that take one value: the last counts', async () => {
    const file = exportWith('Time,P [W]\n2026-03-01T10:00:00,900\n2026-03-01T10:00:10,900\n');
    const { start } = await runLineJson<{ start: string }>([
      'import',
      file,
      '--look',
      '--zone',
      'UTC',
      '--zone',
      '+02:00',
    ]);
    expect(start).toBe('2026-03-01T08:00:00.000Z');
  });

  it.each([
    ['tab', '\t'],
    ['\\t', '\t'],
    ['pipe', '|'],
    ['semicolon', ';'],
    [',', ','],
  ])('--delimiter %s', async (named, sign) => {
    const file = exportWith(plain.replaceAll(',', sign));
    const { mapping } = await runLineJson<{ mapping: { delimiter: string } }>([
      'import',
      file,
      '--look',
      '--delimiter',
      named,
    ]);
    expect(mapping.delimiter).toBe(sign);
  });

  it.each([[','], ['comma'], ['.'], ['point']])('--decimal %s', async (named) => {
    const file = exportWith('t [s];P [W]\n0;1,500\n10;1,500\n');
    expect((await runLine(['import', file, '--look'])).stderr).toMatch(/"1,500" can be read in two ways/);
    const seen = await runLineJson<{ meanPowerW: number | null; mapping: { decimal: string } }>([
      'import',
      file,
      '--look',
      '--decimal',
      named,
    ]);
    expect(seen.mapping.decimal).toBe(named === 'comma' || named === ',' ? ',' : '.');
  });
});

describe('what can not be opened', () => {
  /** Refused with 1 and one sentence, and not a byte changed in the workbook. */
  async function refused(file: string, words: RegExp) {
    const workbook = copyOf('samples/dairy');
    const before = treeOf(workbook);
    for (const how of [
      ['--look'],
      ['--run', 'vat-warmer-full-01'],
      ['--csv', join(emptyFolder(), 'o.csv')],
    ]) {
      const { code, stdout, stderr } = await runLine(['import', file, ...how, '--workbook', workbook]);
      expect([code, stdout]).toEqual([1, '']);
      expect(stderr).toMatch(words);
    }
    expect(treeOf(workbook)).toEqual(before);
  }

  it('a file that is not there', () =>
    refused('nowhere/meter.csv', /^nowhere\/meter\.csv: There is no file nowhere\/meter\.csv\.\n$/));
  it('a path through a file', () =>
    refused(`${exportWith(plain)}/more.csv`, /There is no file .*more\.csv\.\n$/));
  it('a folder', () => refused(emptyFolder(), /: The file can't be read: it is a folder\.\n$/));
  it('a pipe, which would never end', async () => {
    const pipe = join(emptyFolder(), 'pipe.csv');
    execFileSync('mkfifo', [pipe]);
    await refused(pipe, /pipe\.csv: The file can't be read: it is no plain file\.\n$/);
  });
  it('a device', () =>
    refused('/dev/null', /^\/dev\/null: The file can't be read: it is no plain file\.\n$/));
  it('an empty file', () => refused(exportWith(''), /meter\.csv.*empty/));
  // Whoever may read everything can't be refused: the words are tested by the code of the system.
  it('a file without the right to read it', () =>
    expect(readProblem({ code: 'EACCES', message: 'EACCES: x' }, 'meter.csv').toText()).toBe(
      "meter.csv: The file can't be read: there is no right to read it.",
    ));
  it('keeps the words of the system where they say more', () =>
    expect(readProblem({ code: 'EIO', message: 'EIO: i/o error' }, 'm.csv').message).toMatch(
      /EIO: i\/o error/,
    ));
});

describe('names of files', () => {
  it.each(['my meter.csv', 'Zähler März.csv', 'a=b;c.csv', "it's.csv", '測定.csv', '-dash.csv'])(
    '%s',
    async (name) => {
      const file = exportWith(plain, name);
      const { code, stdout } = await runLine(['import', file, '--look']);
      expect([code, stdout]).toEqual([0, expect.stringContaining('3 rows over 0:20')]);
    },
  );

  it('~ is the home folder', async () => {
    const home = emptyFolder();
    mkdirSync(join(home, 'meter logs'));
    writeFileSync(join(home, 'meter logs/a.csv'), plain);
    const { code, stdout } = await heatledger(['import', '~/meter logs/a.csv', '--look'], { home });
    expect([code, stdout]).toEqual([0, expect.stringContaining('3 rows over 0:20')]);
  });

  it('are whole paths from the folder one is in', () => {
    const file = exportWith(plain);
    expect(exportPath('meter.csv', join(file, '..'))).toBe(file);
  });
});
