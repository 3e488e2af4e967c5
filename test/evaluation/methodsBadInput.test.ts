import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { coolDownRun } from '../../src/evaluation/methods/coolDownRun.js';
import { boilOffRun } from '../../src/evaluation/methods/boilOffRun.js';
import { holdRun } from '../../src/evaluation/methods/holdRun.js';
import type { StoredRun } from '../../src/evaluation/methods/types.js';
import { findProtocol, readingOf } from '../../src/protocols/index.js';
import { SourceBook } from '../../src/uncertainty/index.js';
import { openWorkbook, readRun } from '../../src/workbook/index.js';
import { errorOf } from '../support/errorOf.js';
import { runLine } from '../support/inProcess.js';
import {
  curves,
  evaluationOf,
  figureOf,
  freshBench,
  moved,
  truth,
  typed,
  valueNamed,
  walkChanged,
} from './curveBench.js';

const closed = 'vat-warmer-full-cooling-closed';
const open = 'vat-warmer-full-cooling-open';
const hold = 'vat-warmer-gentle-hold';
const boil = 'vat-warmer-full-boil-01';
const third = 'vat-warmer-full-third-01';
const full = 'vat-warmer-full-full-01';

type Change = (answers: string) => string;
const both =
  (...changes: Change[]): Change =>
  (answers) =>
    changes.reduce((text, change) => change(text), answers);
const withoutLogs = both(typed('meterLog', ''), typed('temperatureLog', ''));
const asIs: Change = (answers) => answers;
/** A typed reading for each entry, in place of the empty answer that ends them. */
const readings = (entries: readonly [string, string][]): Change => {
  const lines = entries.map(
    ([at, value]) => `  - { step: interimTemperature, value: "${value}", at: "${at}" }\n`,
  );
  return (answers) =>
    answers.replace(
      /( {2}- \{ step: interimTemperature, value: "", at: ")[^"]*/,
      `${lines.join('')}$1${entries.at(-1)![0]}`,
    );
};

describe('a run that lacks something says what', () => {
  it.each<[string, string, Change, string, RegExp]>([
    [
      'an open cool-down that was not weighed at the end',
      open,
      typed('finalWeight', ''),
      'vapour-not-weighed',
      /cooled with the lid off and was not weighed at the end.*Weigh at the end, or leave the lid on\./,
    ],
    [
      'a cool-down that was too short',
      closed,
      moved('coolTo', -4500),
      'method-too-short',
      /The cool-down of run .*-closed lasted 15:00; its protocol asks for 40:00 or more\./,
    ],
    [
      'a cool-down with neither log nor readings',
      closed,
      withoutLogs,
      'method-few-temperatures',
      /has 0 temperatures between its marks \(typed\); 5 or more are needed\./,
    ],
    [
      'a hold without any time',
      hold,
      both(moved('holdTo', -5400), withoutLogs),
      'method-too-short',
      /The hold of run .* lasted 0:00; its protocol asks for 1:00:00 or more\./,
    ],
    [
      'a hold whose counter says another energy than its log',
      hold,
      both(typed('energyBefore', '1.000 kWh'), typed('energyAfter', '1.500 kWh')),
      'energy-disagrees',
      /the log gives 0\.27\d* kWh, the counter as typed at the bench 0\.5/,
    ],
    [
      'a boil-off that was too short',
      boil,
      both(moved('switchOff', -1500), withoutLogs),
      'method-too-short',
      /The boiling of run .* lasted 5:00; its protocol asks for 15:00 or more\./,
    ],
    [
      'a boil-off of another energy',
      boil,
      both(typed('energyBefore', '0 kWh'), typed('energyAfter', '0.9 kWh')),
      'energy-disagrees',
      /the log gives .* kWh, the counter as typed at the bench 0\.9/,
    ],
  ])('%s', async (_what, run, change, code, words) => {
    const bench = freshBench();
    const ended = await walkChanged(bench, run, change);
    expect(ended.code).toBe(1);
    const { refused, methods } = evaluationOf(bench.dir);
    expect(methods).toEqual([]);
    expect(refused.map((each) => [each.run, each.error?.code])).toEqual([[run, code]]);
    expect(refused[0]!.reason).toMatch(words);
    expect(JSON.parse(ended.stdout).reason).toContain(refused[0]!.reason);
  });

  it.each<[string, string, Change, RegExp]>([
    [
      'a cool-down without the room',
      closed,
      typed('ambientTemperature', ''),
      /"ambientTemperature".*An answer is needed here/,
    ],
    [
      'a hold without its last counter',
      hold,
      typed('energyAfter', ''),
      /"energyAfter".*An answer is needed here/,
    ],
    [
      'a boil-off without its second weighing',
      boil,
      typed('finalWeight', ''),
      /"finalWeight".*An answer is needed here/,
    ],
    [
      'a boil-off in which nothing left',
      boil,
      typed('finalWeight', '7060 g'),
      /The steam took about 0\.0\d* kWh|can't weigh more/,
    ],
    [
      'a log of another day',
      closed,
      typed('temperatureLog', '../exports/vat-warmer-full-cooling-open-temperature.csv'),
      /doesn't cover the cool-down/,
    ],
  ])('%s is not even kept', async (_what, run, change, words) => {
    const bench = freshBench();
    const ended = await walkChanged(bench, run, change);
    expect(ended.code).toBe(1);
    const { message } = JSON.parse(ended.stdout).error;
    expect(message).toMatch(words);
    expect(evaluationOf(bench.dir).refused).toEqual([]);
  });
});

/** A run of the samples as it lies in a workbook, without its logs. */
async function storedRun(run: string) {
  const bench = freshBench();
  const ended = await walkChanged(bench, run, withoutLogs);
  expect(ended.stderr + ended.stdout).not.toMatch(/answer-/);
  const read = readRun(bench.dir, run).run;
  const { protocol } = findProtocol(read.protocol.name, null);
  const stored: StoredRun = { run: read, protocol, powerLog: null, temperatureLog: null };
  return { stored, workbook: openWorkbook(bench.dir) };
}
const without = ({ run, protocol, ...logs }: StoredRun, role: Parameters<typeof readingOf>[2]): StoredRun => {
  const gone = readingOf(protocol, run, role);
  return { ...logs, protocol, run: { ...run, readings: run.readings.filter((each) => each !== gone) } };
};

describe('records that a lab of its own made', () => {
  it('a cool-down without the room', async () => {
    const { stored, workbook } = await storedRun(closed);
    const error = errorOf(() =>
      coolDownRun(new SourceBook(), workbook, without(stored, 'ambientTemperature'), null),
    );
    expect(error.message).toBe(`Run ${closed} has no reading of ambientTemperature.`);
  });
  it('a hold without marks', async () => {
    const { stored, workbook } = await storedRun(hold);
    const unmarked = { ...stored, run: { ...stored.run, marks: {} } };
    const error = errorOf(() => holdRun(new SourceBook(), workbook, unmarked, { body: null, kappa: null }));
    expect(error.message).toBe(
      `The hold of run ${hold} has no time: the marks of its beginning and its end are both needed.`,
    );
  });
  it('a boil-off that weighs no less', async () => {
    const { stored, workbook } = await storedRun(boil);
    const before = readingOf(stored.protocol, stored.run, 'fullMass')!.si;
    const after = readingOf(stored.protocol, stored.run, 'finalMass')!;
    const same = stored.run.readings.map((each) => (each === after ? { ...each, si: before } : each));
    const error = errorOf(() =>
      boilOffRun(new SourceBook(), workbook, { ...stored, run: { ...stored.run, readings: same } }),
    );
    expect(error.message).toBe(
      `The steam of run ${boil} must weigh more than zero, but the two weighings give 0.0 g.`,
    );
  });
  it('a boil-off without its second weighing', async () => {
    const { stored, workbook } = await storedRun(boil);
    expect(errorOf(() => boilOffRun(new SourceBook(), workbook, without(stored, 'finalMass'))).message).toBe(
      `Run ${boil} has no reading of finalMass.`,
    );
  });
});

describe('without a logger', () => {
  /** The closed cool-down read every ten minutes, as the logger saw it. */
  const rows = readFileSync(join(curves, 'exports', `${closed}-temperature.csv`), 'utf8')
    .trim()
    .split('\n')
    .slice(1);
  const tenMinutes = rows.filter((_, i) => i % 60 === 10).map((row) => row.split(',') as [string, string]);
  it('a cool-down is fitted to typed readings, and is less sure', async () => {
    const bench = freshBench();
    const ended = await walkChanged(bench, closed, both(withoutLogs, readings(tenMinutes)));
    expect(ended.code, ended.stdout).toBe(0);
    const figure = figureOf(bench.dir, 'cool-down');
    expect(figure.runs[0]!.facts.course).toBe('readings');
    const found = valueNamed(figure, 'ua');
    expect(found.interval[0]).toBeLessThan(truth[closed]!.uaWPerK!);
    expect(found.interval[1]).toBeGreaterThan(truth[closed]!.uaWPerK!);
  });
  it('a hold goes by its counter and its typed temperatures', async () => {
    const bench = freshBench();
    const ended = await walkChanged(bench, hold, withoutLogs);
    expect(ended.code, ended.stdout).toBe(0);
    const figure = figureOf(bench.dir, 'hold');
    expect(figure.runs[0]!.facts.how).toBe('counter, typed at the bench');
    const { interval } = valueNamed(figure, 'lossPerKelvin');
    expect(interval[0]).toBeLessThan(truth[hold]!.lossPerKelvinWPerK!);
    expect(interval[1]).toBeGreaterThan(truth[hold]!.lossPerKelvinWPerK!);
  });
  it('two fills go by energy and rise, and are less sure', async () => {
    const bench = freshBench();
    for (const run of [third, full]) expect((await walkChanged(bench, run, withoutLogs)).code).toBe(0);
    const typedOnly = figureOf(bench.dir, 'two-fills');
    expect(typedOnly.runs.map(({ facts }) => facts.how)).toEqual(
      Array(2).fill('energy and rise, without a log'),
    );
    const kappa = valueNamed(typedOnly, 'kappa');
    expect(kappa.interval[0]).toBeLessThan(truth[full]!.kappa!);
    expect(kappa.interval[1]).toBeGreaterThan(truth[full]!.kappa!);
    const body = valueNamed(typedOnly, 'bodyHeatCapacity');
    expect(body.interval[0]).toBeLessThan(truth[full]!.bodyHeatCapacityJPerK!);
    expect(body.interval[1]).toBeGreaterThan(truth[full]!.bodyHeatCapacityJPerK!);
  });
});

describe('what one method alone can’t tell', () => {
  it('κ of one fill is conditional on C, and the other fill is due', async () => {
    const bench = freshBench();
    expect((await walkChanged(bench, full, asIs)).code).toBe(0);
    const figure = figureOf(bench.dir, 'two-fills');
    const [kappa] = figure.values;
    expect(figure.values.map(({ name }) => name)).toEqual(['kappa']);
    expect(kappa!.conditionalOn).toMatch(/a heater body that holds no heat/);
    // Biased by about C/(C + C_b): the body's share of the heat is missing in C.
    expect(kappa!.value).toBeLessThan(truth[full]!.kappa!);
    expect(figure.lacks).toBe(
      'Only the fill full was tested. Due next: third (runs so far: third 0, full 1). Next: heatledger test two-fills --heater vat-warmer --setting full',
    );
    const { stdout } = await runLine(['result', '--workbook', bench.dir]);
    expect(stdout).toMatch(
      /If the heater body held no heat, 8\d\.\d ± \d\.\d % of the energy would reach the load/,
    );
    expect(stdout).toMatch(/Due next: third/);
  });
  it('fills that are one and the same under two names tell no more', async () => {
    const bench = freshBench();
    await walkChanged(bench, full, asIs);
    await walkChanged(bench, 'vat-warmer-full-full-02', typed('fill', 'third'));
    const figure = figureOf(bench.dir, 'two-fills');
    expect(figure.values.map(({ name }) => name)).toEqual(['kappa']);
    expect(figure.lacks).toMatch(
      /These fills don't tell the heater body from the load: their heat capacities go from/,
    );
  });
  it('a boil-off without a loss to the room is not held against the thermometer', async () => {
    const bench = freshBench();
    await walkChanged(bench, boil, asIs);
    const figure = figureOf(bench.dir, 'boil-off');
    expect(figure.agreement).toBeNull();
    expect(figure.values.map(({ name }) => name)).toEqual(['boilOffEfficiency']);
    expect(figure.lacks).toMatch(
      /at the boil more is lost to the room\. A cool-down that was weighed gives that loss\./,
    );
  });
  it('a closed cool-down that was not weighed counts its steam as loss, says so, and serves no heat balance', async () => {
    const bench = freshBench();
    await walkChanged(bench, closed, typed('finalWeight', ''));
    await walkChanged(bench, boil, asIs);
    const figure = figureOf(bench.dir, 'cool-down');
    const ua = valueNamed(figure, 'ua');
    expect(ua.conditionalOn).toMatch(/steam under the lid/);
    expect(ua.value).toBeGreaterThan(truth[closed]!.uaWPerK!);
    expect(figure.lines[0]).toMatch(/steam counted in/);
    expect(figure.lacks).toMatch(/The steam was not weighed/);
    expect(figureOf(bench.dir, 'boil-off').agreement).toBeNull();
  });
  it('a room that was read once makes UA less sure', async () => {
    const [twice, once] = [freshBench(), freshBench()];
    await walkChanged(twice, closed, asIs);
    await walkChanged(once, closed, typed('ambientTemperatureAfter', ''));
    const [a, b] = [twice, once].map(({ dir }) => valueNamed(figureOf(dir, 'cool-down'), 'ua'));
    expect(b!.standardUncertainty).toBeGreaterThan(a!.standardUncertainty);
    expect(b!.budget.map(({ source }) => source)).toContain('room that was read only once');
  });
});
