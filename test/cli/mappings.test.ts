import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { listMappings, readMapping, readRun } from '../../src/workbook/index.js';
import { corpusFiles, lineOf } from '../support/corpusReadings.js';
import { copyOf, emptyFolder, top, treeOf } from '../support/folders.js';
import { runLine, runLineJson } from '../support/inProcess.js';

/** Runs a line in a workbook, with files of the given texts beside it. */
function desk(workbook = copyOf('samples/records')) {
  const folder = emptyFolder();
  return {
    workbook,
    folder,
    file(name: string, text: string): string {
      writeFileSync(join(folder, name), text);
      return join(folder, name);
    },
    run: (...args: string[]) => runLine(['import', ...args, '--workbook', workbook]),
    json: <T>(...args: string[]) => runLineJson<T>(['import', ...args, '--workbook', workbook]),
    yaml: (name: string) => readFileSync(join(workbook, `mappings/${name}.yaml`), 'utf8'),
  };
}

describe('a mapping that is saved and used again', () => {
  it.each(corpusFiles)('$name reads the same without its options', async ({ path, options }) => {
    const { run, folder } = desk();
    const [before, after] = [join(folder, 'before.csv'), join(folder, 'after.csv')];
    const first = await run(path, '--csv', before, '--remember', 'meter', ...lineOf(options));
    expect([first.code, first.stderr.includes('can be read')], first.stderr).toEqual([0, false]);
    expect(first.stdout).toContain('saved as meter in mappings/meter.yaml');
    const again = await run(path, '--csv', after, '--like', 'meter');
    expect(again.code, again.stderr).toBe(0);
    expect(again.stdout).toContain('Read as saved for meter (mappings/meter.yaml).');
    expect(readFileSync(after, 'utf8')).toBe(readFileSync(before, 'utf8'));
    // Read with it, it is the same mapping.
    const third = await run(path, '--look', '--like', 'meter', '--remember', 'meter');
    expect(third.stderr).not.toContain('Another mapping');
    expect(third.stdout).toContain('saved as meter already, just so');
  });
});

/** Two power columns without units: nothing but a person can say which and in what. */
const two = (first: string, second: string, rows = '0;900;1,8\n10;901,5;1,9\n20;0,5;0,1\n') =>
  `t;${first};${second}\n${rows}`;
const how = ['--column', 'power=P out', '--unit', 'power=kW', '--time-form', 'elapsed-s'];

describe('what is saved', () => {
  it('is what was stated and what was found, as plain YAML', async () => {
    const { run, file, yaml, workbook } = desk();
    const path = file('meter.csv', two('P in', 'P out'));
    const { code, stdout } = await run(path, '--look', '--remember', 'mains-meter', ...how);
    expect(code).toBe(0);
    expect(stdout).toMatch(/heatledger import FILE --like mains-meter/);
    expect(yaml('mains-meter')).toBe(
      [
        '# yaml-language-server: $schema=../schemas/mapping.schema.json',
        'schema: 1',
        'id: mains-meter',
        'columns:',
        '  time:',
        '    header: t',
        '  power:',
        '    header: P out',
        'found:',
        '  delimiter: ;',
        '  decimal: ","',
        'stated:',
        '  timeForm: elapsed-s',
        '  units:',
        '    power: kW',
        '',
      ].join('\n'),
    );
    expect(treeOf(workbook)['schemas/mapping.schema.json']).toBeDefined();
    type Look = { energyWh: number; savedMapping: string };
    const seen = await desk(workbook).json<Look>(path, '--look', '--like', 'mains-meter');
    // On from the first reading to the middle of the last interval: 1.85 kW over 10 s, then 1.9 kW for 5 s, 28 kJ.
    expect(seen.savedMapping).toBe('mains-meter');
    expect(seen.energyWh).toBeCloseTo(28_000 / 3600, 9);
  });

  it('has no decimal sign where no number shows one, so that the next export is not misread', async () => {
    const { run, file, yaml, json } = desk();
    await run(file('whole.csv', 't [s];P [W]\n0;900\n10;901\n'), '--look', '--remember', 'm');
    expect(yaml('m')).not.toContain('decimal');
    type Look = { meanPowerW: number };
    const next = file('comma.csv', 't [s];P [W]\n0;900,5\n10;900,5\n');
    expect((await json<Look>(next, '--look', '--like', 'm')).meanPowerW).toBe(900.5);
  });

  it('names a column by its number where its name stands twice or is none', async () => {
    const { run, file, workbook } = desk();
    const path = file('twice.csv', 't [s],P [W],P [W]\n0,1,900\n10,1,900\n');
    expect((await run(path, '--look', '--remember', 'm', '--column', 'power=3')).code).toBe(0);
    expect(readMapping(workbook, 'm').columns).toEqual({
      time: { header: 't [s]' },
      power: { header: 'P [W]', number: 3 },
    });
  });

  it('takes the zone that was needed, and not one that the export names itself', async () => {
    const { run, file, workbook } = desk();
    const clock = file('clock.csv', 'Time,P [W]\n2026-03-01T10:00:00,900\n2026-03-01T10:00:10,900\n');
    await run(clock, '--look', '--remember', 'lab');
    await run(clock, '--look', '--remember', 'own', '--zone', 'UTC');
    const zoned = file('zoned.csv', 'Time,P [W]\n2026-03-01T10:00:00Z,900\n2026-03-01T10:00:10Z,900\n');
    await run(zoned, '--look', '--remember', 'zoned');
    const zoneOf = (name: string) => readMapping(workbook, name).stated.zone;
    expect(['lab', 'own', 'zoned'].map(zoneOf)).toEqual(['Europe/Vienna', 'UTC', undefined]);
  });
});

describe('a name that is taken', () => {
  it('keeps what it has unless --replace is said; the differences are named', async () => {
    const { run, file, yaml, workbook } = desk();
    const path = file('meter.csv', two('P in', 'P out'));
    await run(path, '--look', '--remember', 'm', ...how);
    const before = treeOf(workbook);
    const other = ['--column', 'power=P in', '--unit', 'power=W', '--time-form', 'elapsed-s'];
    const refused = await run(path, '--look', '--remember', 'm', ...other);
    expect([refused.code, refused.stdout]).toEqual([1, '']);
    expect(refused.stderr).toMatch(
      /Another mapping is saved as "m": columns\.power\.header was "P out" and is "P in" now; stated\.units\.power was "kW" and is "W" now\. Nothing was kept\.\nSay --replace/,
    );
    expect(treeOf(workbook)).toEqual(before);
    expect((await run(path, '--look', '--remember', 'm', ...how)).stdout).toContain(
      'saved as m already, just so',
    );
    expect(treeOf(workbook)).toEqual(before);
    const replaced = await run(path, '--look', '--remember', 'm', '--replace', ...other);
    expect(replaced.stdout).toContain('saved as m in mappings/m.yaml, in place of the one before');
    expect(yaml('m')).toContain('header: P in');
  });

  it.each([
    ['none', /can't be called "none", which means something else after --like/],
    ['list', /can't be called "list"/],
    ['My meter', /"My meter" can't be the id of a mapping: an id is 1 to 64 of a-z/],
    ['../m', /"\.\.\/m" can't be the id of a mapping/],
  ])('%j is refused before anything is read', async (name, words) => {
    const { run, workbook } = desk();
    const { code, stderr } = await run('nowhere.csv', '--look', '--remember', name);
    expect(code).toBe(1);
    expect(stderr).toMatch(words);
    expect(listMappings(workbook)).toEqual([]);
  });

  it('needs a workbook to be saved in', async () => {
    const file = join(emptyFolder(), 'm.csv');
    writeFileSync(file, 't [s],P [W]\n0,900\n10,900\n');
    const { code, stderr } = await runLine(['import', file, '--look', '--remember', 'm']);
    expect(code).toBe(1);
    expect(stderr).toMatch(/There is no workbook in .*--workbook DIR/s);
  });
});

describe('a saved mapping that does not fit', () => {
  async function saved(text: string, ...options: string[]) {
    const at = desk();
    const { code, stderr } = await at.run(
      at.file('first.csv', text),
      '--look',
      '--remember',
      'm',
      ...options,
    );
    expect(code, stderr).toBe(0);
    return at;
  }
  it.each<[string, string, string, RegExp]>([
    [
      'a column that is missing',
      't [s];P [W];U [V]\n0;900,5;230\n10;900;230\n',
      't [s];Power [W];U [V]\n0;900,5;230\n10;900;230\n',
      /second\.csv, line 1.*: This export doesn't fit the mapping saved as "m": There is no column "P \[W\]"\. The columns are "t \[s\]", "Power \[W\]", "U \[V\]"/,
    ],
    [
      'cells that do not read',
      't [s];P [W]\n0;900,5\n10;900\n',
      't [s];P [W]\n0;900,5\n10;9x0\n20;900\n',
      /second\.csv, line 3, column 2: This export doesn't fit the mapping saved as "m": "9x0" in the column "P \[W\]" can't be read/,
    ],
    [
      'a decimal point where there was a comma',
      't [s];P [W]\n0;900,125\n10;900,5\n',
      't [s];P [W]\n0;900.125\n10;900.5\n20;901.25\n',
      /second\.csv.*doesn't fit the mapping saved as "m"/,
    ],
    [
      'a unit below the name that has changed',
      't,P\ns,W\n0,900.5\n10,900\n',
      't,P\ns,kW\n0,0.9\n10,0.9\n',
      /"P" is in kW here and W in the mapping/,
    ],
    [
      'milliseconds for seconds',
      't,P\ns,W\n0,900.5\n10,900\n',
      't,P\nms,W\n0,900.5\n10000,900\n',
      /its times are of the form elapsed-ms here and elapsed-s in the mapping/,
    ],
    [
      'another delimiter',
      't [s];P [W]\n0;900,5\n10;900\n',
      't [s]\tP [W]\n0\t900,5\n10\t900\n',
      /second\.csv.*doesn't fit the mapping saved as "m"/,
    ],
  ])('by %s is an error that names file and mapping, and the way on', async (_what, first, second, words) => {
    const { run, file } = await saved(first);
    const path = file('second.csv', second);
    const { code, stdout, stderr } = await run(path, '--look', '--like', 'm');
    expect([code, stdout]).toEqual([1, '']);
    expect(stderr).toMatch(words);
    expect(stderr).toMatch(/To read it without a saved mapping say --like none; to save it anew,/);
  });

  it('by a column of the same number and another name', async () => {
    const { run, file } = await saved('t [s],P [W],P [W]\n0,1,900\n10,1,900\n', '--column', 'power=3');
    const path = file('second.csv', 't [s],U [V],I [A]\n0,230,3.9\n10,230,3.9\n');
    const { code, stderr } = await run(path, '--look', '--like', 'm');
    expect(code).toBe(1);
    expect(stderr).toMatch(
      /column 3 was called "P \[W\]" when it was saved as power, and is called "I \[A\]" here\./,
    );
  });

  it('settles what the next export leaves open, such as the order of day and month', async () => {
    const clear = 'Time,P [W]\n13/02/2026 10:00:00,900\n13/02/2026 10:00:10,900\n';
    const { run, file, json } = await saved(clear);
    const path = file('second.csv', 'Time,P [W]\n01/02/2026 10:00:00,900\n01/02/2026 10:00:10,900\n');
    expect((await run(path, '--look')).stderr).toMatch(/can be read in two ways/);
    const { start } = await json<{ start: string }>(path, '--look', '--like', 'm');
    expect(start).toBe('2026-02-01T09:00:00.000Z');
  });
});

describe('options beside a saved mapping', () => {
  it('win, and the unit of another column is forgotten', async () => {
    const { run, file, json } = desk();
    const path = file('meter.csv', 't [s],P1,P2 [W]\n0,900,700\n10,900,700\n');
    await run(path, '--look', '--remember', 'm', '--column', 'power=P1', '--unit', 'power=W');
    type Look = { meanPowerW: number };
    const mean = async (...more: string[]) =>
      (await json<Look>(path, '--look', '--like', 'm', ...more)).meanPowerW;
    expect(await mean()).toBe(900);
    expect(await mean('--unit', 'power=kW')).toBe(900_000);
    expect(await mean('--column', 'power=3')).toBe(700);
  });

  it('a stated interval goes before a saved time column, and the other way round', async () => {
    const { run, file, json } = desk();
    const rows = file('rows.csv', 'n,P [W]\n0,900\n1,900\n2,900\n');
    type Look = { durationS: number };
    const long = async (path: string, ...more: string[]) =>
      (await json<Look>(path, '--look', ...more)).durationS;
    await run(rows, '--look', '--remember', 'm', '--interval', '10 s');
    expect(await long(rows, '--like', 'm')).toBe(20);
    expect(await long(rows, '--like', 'm', '--interval', '1 min')).toBe(120);
    expect(await long(rows, '--like', 'm', '--column', 'time=n', '--time-form', 'elapsed-min')).toBe(120);
  });
});

describe('--like', () => {
  it('with an unknown name says which there are', async () => {
    const { run, file } = desk();
    const path = file('m.csv', 't [s],P [W]\n0,900\n10,900\n');
    expect((await run(path, '--look', '--like', 'x')).stderr).toMatch(
      /No mapping is saved as "x"\. Saved are: none yet\.\nSave one with: /,
    );
    for (const name of ['b', 'a']) await run(path, '--look', '--remember', name);
    expect((await run(path, '--look', '--like', 'x')).stderr).toMatch(/Saved are: a, b\./);
    expect((await run(path, '--look', '--like', '../x')).stderr).toMatch(/can't be the id of a mapping/);
  });

  it('list shows the saved ones', async () => {
    const { run, file, json } = desk();
    expect((await run('--like', 'list')).stdout).toMatch(/No mapping is saved yet\. Save one with:/);
    await run(file('m.csv', two('P in', 'P out')), '--look', '--remember', 'mains', ...how);
    expect((await run('--like', 'list')).stdout).toBe(
      'mains          time from "t", power from "P out" in kW\n',
    );
    expect(await json('--like', 'list')).toMatchObject({ mappings: [{ id: 'mains' }] });
  });

  it('none reads as if nothing were saved', async () => {
    const { run, file } = desk();
    const path = file('m.csv', two('P in', 'P out'));
    await run(path, '--look', '--remember', 'm', ...how);
    expect((await run(path, '--look', '--like', 'none')).stderr).toMatch(/can be read in two ways/);
  });

  it('names file, line and key of a mapping that was spoilt by hand', async () => {
    const { run, file, workbook, yaml } = desk();
    const path = file('m.csv', 't [s],P [W]\n0,900\n10,900\n');
    await run(path, '--look', '--remember', 'm');
    const spoilt = yaml('m').replace('power:', 'powre:');
    writeFileSync(join(workbook, 'mappings/m.yaml'), spoilt);
    const { code, stderr } = await run(path, '--look', '--like', 'm');
    expect(code).toBe(1);
    expect(stderr).toMatch(
      /mappings\/m\.yaml, line 7, column 3, columns\.powre: No key "powre" is known here/,
    );
    writeFileSync(
      join(workbook, 'mappings/m.yaml'),
      yaml('m').replace('powre:', 'power:').replace('id: m', 'id: n'),
    );
    expect((await run(path, '--look', '--like', 'm')).stderr).toMatch(
      /calls itself "n", but its file is named "m"/,
    );
  });
});

describe('the mapping of the meter of a run', () => {
  const power = (name: string) => join(top, `samples/exports/vat-warmer-${name}-power.csv`);
  const temperature = (name: string) => join(top, `samples/exports/vat-warmer-${name}-temperature.csv`);

  it('is used without asking, said so, and kept with the run', async () => {
    const { run, workbook } = desk(copyOf('samples/dairy'));
    const id = 'vat-warmer-full-02';
    const first = await run(power('full-01'), '--run', 'vat-warmer-full-01', '--remember', 'meter-1');
    expect(first.code, first.stderr).toBe(0);
    expect(first.stdout).toContain('saved as meter-1 in mappings/meter-1.yaml');
    const second = await run(power('full-02'), '--run', id);
    expect(second.code, second.stderr).toBe(0);
    expect(second.stdout).toContain('Read as saved for meter-1 (mappings/meter-1.yaml).');
    const { options } = readRun(workbook, id).run.attachments.find(({ role }) => role === 'powerLog') ?? {};
    expect(options).toMatchObject({
      zone: 'Europe/Vienna',
      delimiter: expect.any(String),
      columns: { power: expect.any(String) },
    });
    // The evaluation reads with what the run keeps, whatever becomes of the mapping.
    const figures = async () =>
      (await runLine(['result', '--setting', 'full', '--json', '--workbook', workbook])).stdout;
    const before = await figures();
    writeFileSync(join(workbook, 'mappings/meter-1.yaml'), 'schema: 1\n');
    expect(await figures()).toBe(before);
  });

  it('is not that of the thermometer, though both are saved', async () => {
    const { run } = desk(copyOf('samples/dairy'));
    const id = 'vat-warmer-full-01';
    await run(power('full-01'), '--run', id, '--remember', 'meter-1');
    await run(temperature('full-01'), '--run', id, '--remember', 'logger-1');
    const other = ['--run', 'vat-warmer-full-02'];
    expect((await run(power('full-02'), ...other)).stdout).toContain('Read as saved for meter-1 ');
    expect((await run(temperature('full-02'), ...other)).stdout).toContain('Read as saved for logger-1 ');
    expect((await run(temperature('full-02'), ...other, '--as', 'temperature')).stdout).toContain(
      'Read as saved for logger-1 ',
    );
  });

  it('is an error where it does not fit, and --like none goes on; nothing is kept of the attempt', async () => {
    const { run, workbook, file } = desk(copyOf('samples/dairy'));
    const id = 'vat-warmer-full-01';
    await run(power('full-01'), '--run', id, '--remember', 'meter-1');
    const before = treeOf(workbook);
    const renamed = readFileSync(power('full-02'), 'utf8').replace('power_kW', 'Power (kW)');
    const path = file('renamed.csv', renamed);
    const refused = await run(path, '--run', 'vat-warmer-full-02');
    expect(refused.code).toBe(1);
    expect(refused.stderr).toMatch(
      /renamed\.csv.*doesn't fit the mapping saved as "meter-1": There is no column/,
    );
    expect(refused.stderr).toMatch(/--like none/);
    expect(treeOf(workbook)).toEqual(before);
    const plain = await run(path, '--run', 'vat-warmer-full-02', '--like', 'none');
    expect(plain.code, plain.stderr).toBe(0);
    expect(plain.stdout).not.toContain('Read as saved');
  });

  it('is not saved where the export is refused', async () => {
    const { run, workbook } = desk(copyOf('samples/dairy'));
    const refused = await run(power('full-01'), '--run', 'vat-warmer-gentle-01', '--remember', 'meter-1');
    expect(refused.code).toBe(1);
    expect(listMappings(workbook)).toEqual([]);
    expect(readdirSync(workbook)).not.toContain('mappings');
  });
});
