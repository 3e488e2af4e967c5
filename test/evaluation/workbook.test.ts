import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { evaluateWorkbook, halfWidth } from '../../src/evaluation/index.js';
import { AnswersBench, beginEntry, findProtocol, parseProtocol, walk } from '../../src/protocols/index.js';
import { openWorkbook, paths, RunWriter } from '../../src/workbook/index.js';
import { waterAt101325Pa } from '../reference/water.js';

const root = mkdtempSync(join(tmpdir(), 'heatledger-workbook-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const records = {
  'workbook.yaml':
    'schema: 1\nname: Hill dairy heat bench (invented)\nzone: UTC\npressure: 1013.25 hPa\nhands: [{ id: mr, name: M. R. }]\n',
  'instruments/meter-1.yaml':
    'schema: 1\nid: meter-1\nkind: wattmeter\nname: plug-in wattmeter\nresolution: 0.001 kWh\nlimits: { ofReading: 1 % }\n',
  'instruments/probe-1.yaml':
    'schema: 1\nid: probe-1\nkind: thermometer\nname: probe\nresolution: 0.1 K\nlimits: { absolute: 0.2 K }\n',
  'instruments/scale-1.yaml':
    'schema: 1\nid: scale-1\nkind: scale\nname: bench scale\nresolution: 1 g\nlimits: { absolute: 2 g }\n',
  'heaters/vat-warmer.yaml':
    'schema: 1\nid: vat-warmer\nname: 900 W vat warmer\nsettings: [{ id: gentle, control: steady }, { id: full, control: steady }]\n',
};

let dir: string;
let count = 0;
beforeEach(() => {
  dir = join(root, `book-${++count}`);
  for (const [name, text] of Object.entries(records)) write(name, text);
});

function write(name: string, text: string): void {
  const file = join(dir, name);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
}

/** Walks the main procedure with the given metered energy; the same 6 kg from 20 to 60 °C each time. */
async function heat(
  run: string,
  options: {
    kWh: number;
    setting?: string;
    protocol?: string;
    text?: (shipped: string) => string;
    to?: string;
  },
): Promise<void> {
  const workbook = openWorkbook(dir);
  const name = options.protocol ?? 'water-heating';
  const text = (options.text ?? ((shipped) => shipped))(findProtocol(name, null).text);
  const protocol = parseProtocol(text, `${name}.yaml`);
  const values: Record<string, string> = {
    cautions: 'yes',
    atRest: 'yes',
    draughtFree: 'yes',
    lid: 'on',
    ambientTemperature: '20.0',
    emptyWeight: '1871',
    fullWeight: '7871',
    energyBefore: '0 kWh',
    startLog: '',
    startTemperature: '20.0',
    switchOn: '',
    switchOff: '',
    endTemperature: options.to ?? '60.0',
    finalWeight: '7871',
    energyAfter: `${options.kWh} kWh`,
  };
  const at = (minutes: number) => new Date(Date.UTC(2026, 9, 5, 8, minutes)).toISOString();
  const answers = Object.entries(values).map(([step, value], i) => ({
    step,
    value,
    at: at(i + (step === 'switchOff' || i > 11 ? 27 : 0)),
  }));
  const setting = options.setting ?? 'full';
  const bench = new AnswersBench(
    {
      schema: 1,
      heater: 'vat-warmer',
      setting,
      answers,
      file: 'answers',
      base: dir,
      lineOf: () => undefined,
    },
    () => {},
    () => new Date(at(59)),
  );
  const entry = beginEntry(workbook, {
    run,
    heater: 'vat-warmer',
    setting,
    protocol,
    protocolText: text,
    instruments: { wattmeter: 'meter-1', thermometer: 'probe-1', scale: 'scale-1' },
    hand: 'mr',
    at: bench.now(),
  });
  const writer = RunWriter.begin(dir, entry, text);
  try {
    await walk({ protocol, keeper: writer, bench, hand: 'mr', zone: 'UTC', units: 'si', base: dir });
  } finally {
    writer.close();
  }
}

const evaluate = () => evaluateWorkbook(openWorkbook(dir), { day: new Date('2026-10-06T00:00:00Z') });

describe('the scatter that one run assumes', () => {
  it('is 2 % where no other figure says more', async () => {
    await heat('gentle-1', { kWh: 0.45, setting: 'gentle' });
    for (const [i, kWh] of [0.399, 0.4, 0.402].entries()) await heat(`full-${i + 1}`, { kWh });
    const gentle = evaluate().figures.find((figure) => figure.setting === 'gentle')!;
    expect(gentle.spread).toMatchObject({
      basis: 'assumed',
      words: 'assumed 2 % of the value (common practice, no source)',
    });
    expect(gentle.spread.standardDeviation).toBeCloseTo(0.02 * gentle.efficiency.value, 12);
  });
  it('is that of the other figures where they show more', async () => {
    await heat('gentle-1', { kWh: 0.45, setting: 'gentle' });
    for (const [i, kWh] of [0.37, 0.4, 0.44].entries()) await heat(`full-${i + 1}`, { kWh });
    const { figures } = evaluate();
    const [full, gentle] = ['full', 'gentle'].map((id) => figures.find((figure) => figure.setting === id)!);
    expect(full!.spread.basis).toBe('seen');
    const relative = full!.spread.standardDeviation / full!.efficiency.value;
    // 1/0.37, 1/0.4 and 1/0.44 scatter by 8.7 %; their own doubts are far below.
    expect(relative).toBeCloseTo(0.087, 2);
    expect(gentle!.spread).toMatchObject({ basis: 'assumed' });
    expect(gentle!.spread.words).toBe(
      `assumed ${(100 * relative).toFixed(1)} % of the value, as other figures of this workbook show`,
    );
    expect(gentle!.spread.standardDeviation / gentle!.efficiency.value).toBeCloseTo(relative, 12);
    expect(halfWidth(gentle!) / gentle!.efficiency.value).toBeGreaterThan(1.96 * relative);
  });
});

describe('runs', () => {
  it('of different protocols are never pooled', async () => {
    await heat('full-1', { kWh: 0.4 });
    await heat('full-2', { kWh: 0.41, protocol: 'first-heating' });
    const { figures } = evaluate();
    const pairs = figures.map((figure) => [figure.protocol.name, ...figure.runs.map((run) => run.run.id)]);
    expect(pairs.sort()).toEqual([
      ['first-heating', 'full-2'],
      ['water-heating', 'full-1'],
    ]);
  });
  it('of another version of a protocol are not pooled either', async () => {
    await heat('full-1', { kWh: 0.4 });
    await heat('full-2', { kWh: 0.41, text: (text) => text.replace('version: 1', 'version: 2') });
    expect(evaluate().figures.map((figure) => figure.runs.length)).toEqual([1, 1]);
  });
  it('under a text whose allowance was changed keep each their own allowance', async () => {
    await heat('full-1', { kWh: 0.4 });
    await heat('full-2', {
      kWh: 0.4,
      text: (text) => text.replace('halfWidth: 0.2 K', 'halfWidth: 2 K'),
    });
    const [one, two] = evaluate().runs.map(
      (run) => run.efficiency.water!.budget.find((row) => row.source.id.includes('stirring-end'))!,
    );
    expect(one!.source.standardUncertainty).toBeCloseTo(0.2 / Math.sqrt(3), 12);
    expect(two!.source.standardUncertainty).toBeCloseTo(2 / Math.sqrt(3), 12);
  });
  it('share the errors of their instruments', async () => {
    await heat('full-1', { kWh: 0.4 });
    await heat('gentle-1', { kWh: 0.45, setting: 'gentle' });
    const [one, two] = evaluate().runs.map(
      (run) =>
        run.efficiency.water!.budget.find((row) => row.source.id === 'instrument:meter-1:gain')!.source,
    );
    expect(one).toBe(two);
  });
  it('that cannot count are listed with their reason and stop no other', async () => {
    await heat('full-1', { kWh: 0.4 });
    await heat('full-2', { kWh: 0.4 });
    await heat('full-3', { kWh: 0.41 });
    await heat('full-4', { kWh: 0.42 });
    // One whose protocol was touched, one whose journal was cut off within a line, one broken in the middle.
    writeFileSync(
      paths.runProtocol(dir, 'full-2'),
      `${readFileSync(paths.runProtocol(dir, 'full-2'), 'utf8')}\n`,
    );
    const journal = readFileSync(paths.journal(dir, 'full-3'), 'utf8');
    writeFileSync(paths.journal(dir, 'full-3'), journal.slice(0, -40));
    const lines = readFileSync(paths.journal(dir, 'full-4'), 'utf8').split('\n');
    writeFileSync(paths.journal(dir, 'full-4'), [lines[0], ...lines.slice(2)].join('\n'));
    const found = evaluate();
    expect(found.figures.map((figure) => figure.runs.map((run) => run.run.id))).toEqual([['full-1']]);
    expect(found.refused.map((each) => [each.run, each.error?.code ?? null])).toEqual([
      ['full-2', 'protocol-changed'],
      ['full-3', null],
      ['full-4', 'journal-broken'],
    ]);
    expect(found.refused[1]!.reason).toMatch(/not finished.*--resume full-3/);
    expect(found.warnings.join(' ')).toMatch(/full-3 was cut off/);
  });
  it('may be chosen by setting', async () => {
    await heat('full-1', { kWh: 0.4 });
    await heat('gentle-1', { kWh: 0.45, setting: 'gentle' });
    const only = (options: object) =>
      evaluateWorkbook(openWorkbook(dir), options).runs.map((run) => run.run.id);
    expect(only({ setting: 'gentle' })).toEqual(['gentle-1']);
    expect(only({ runs: ['full-1'] })).toEqual(['full-1']);
    expect(only({ heater: 'another' })).toEqual([]);
  });
  it('have the efficiency of the hand calculation', async () => {
    await heat('full-1', { kWh: 0.4 });
    const tabled = (celsius: number) => waterAt101325Pa.find((row) => row.tC === celsius)!.enthalpyIf97;
    // 6 kg, the buoyancy of air, 167.2 kJ/kg, over 1440 kJ
    const byHand = (6 * 1.001_052 * (tabled(60) - tabled(20))) / 1440;
    expect(evaluate().figures[0]!.efficiency.value).toBeCloseTo(byHand, 5);
  });
});

describe('an evaluation', () => {
  it('of an empty workbook has no figures', () =>
    expect(evaluate()).toMatchObject({ figures: [], runs: [], refused: [], warnings: [] }));
});
