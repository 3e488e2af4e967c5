import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { top } from '../support/folders.js';
import { runLine, runLineJson } from '../support/inProcess.js';
import { curves, evaluationOf, freshBench, truth, valueNamed, walkFile } from './curveBench.js';

/**
 * The curves of the dairy, walked through `test --answers` into a fresh workbook beside its heatings at full. Each value is
 * held against the truth behind it by its own 95 % interval. If each held just that often, all nine would hold in two of three
 * campaigns; they hold more often, since scatter between runs is assumed where too few runs show it: in 15 other campaigns of
 * the same script (other seeds of bench and instruments) all 135 intervals held the truth.
 */
let dir: string;
let evaluation: ReturnType<typeof evaluationOf>;
beforeAll(async () => {
  ({ dir } = freshBench());
  const heatings = join(top, 'samples', 'answers');
  const files = [
    ...readdirSync(heatings)
      .filter((name) => name.includes('-full-'))
      .map((name) => join(heatings, name)),
    ...readdirSync(join(curves, 'answers')).map((name) => join(curves, 'answers', name)),
  ];
  for (const file of files) {
    const ended = await walkFile(dir, file);
    if (ended.code !== 0) throw new Error(`${file}: ${ended.stdout}${ended.stderr}`);
  }
  evaluation = evaluationOf(dir);
}, 120_000);

const mean = (ids: RegExp, key: string) => {
  const found = Object.entries(truth).filter(([id]) => ids.test(id));
  expect(found.length).toBeGreaterThan(0);
  return found.reduce((sum, [, each]) => sum + (each[key] as number), 0) / found.length;
};
const figure = (method: string, lid?: string) =>
  evaluation.methods.find((each) => each.method === method && (lid === undefined || each.lid === lid))!;

describe('the truth behind the samples', () => {
  it.each<[string, string | undefined, string, RegExp, string, number]>([
    // The last number is the widest relative standard uncertainty that still would be of use; an interval without an end holds any truth.
    ['cool-down', 'on', 'ua', /closed/, 'uaWPerK', 0.05],
    ['cool-down', 'on', 'timeConstant', /closed/, 'timeConstantS', 0.05],
    ['cool-down', 'off', 'ua', /open/, 'uaWPerK', 0.06],
    ['cool-down', 'off', 'timeConstant', /open/, 'timeConstantS', 0.06],
    ['hold', 'on', 'lossPerKelvin', /hold/, 'lossPerKelvinWPerK', 0.05],
    ['boil-off', undefined, 'boilOffEfficiency', /boil/, 'boilOffEfficiency', 0.03],
    ['boil-off', undefined, 'reachedLoadAtBoil', /boil/, 'reachedLoad', 0.05],
    ['two-fills', undefined, 'kappa', /third|full-full/, 'kappa', 0.02],
    ['two-fills', undefined, 'bodyHeatCapacity', /third|full-full/, 'bodyHeatCapacityJPerK', 0.3],
  ])('%s %s: %s lies within its interval', (method, lid, name, ids, key, widest) => {
    const value = valueNamed(figure(method, lid), name);
    const true_ = mean(ids, key);
    expect(value.interval[0]).toBeLessThan(true_);
    expect(value.interval[1]).toBeGreaterThan(true_);
    expect(value.standardUncertainty / true_).toBeLessThan(widest);
    expect(value.standardUncertainty).toBeGreaterThan(0);
  });
  it('the steam that was weighed is the steam that left, within the scale and the time of carrying', () => {
    for (const [lid, ids] of [
      ['on', /closed/],
      ['off', /open/],
    ] as const) {
      const steam = figure('cool-down', lid).runs[0]!.facts.steamKg as number;
      // Two weighings of ±0.4 g and rounding, and three minutes of more steam on the scale.
      expect(Math.abs(steam - mean(ids, 'steamKg'))).toBeLessThan(0.006);
    }
  });
});

describe('what is found', () => {
  it('counts every run once, and pools none of them to an efficiency', () => {
    expect(evaluation.refused).toEqual([]);
    expect(evaluation.figures.map((each) => [each.protocol.name, each.runs.length])).toEqual([
      ['water-heating', 3],
    ]);
    const ids = evaluation.methods.flatMap(({ runs }) => runs.map(({ run }) => run.id));
    expect(ids.sort()).toEqual(Object.keys(truth).sort());
  });
  it('gives the budget of each value, adding up to its variance', () => {
    for (const { values } of evaluation.methods) {
      for (const { budget } of values) {
        expect(budget.length).toBeGreaterThan(3);
        expect(budget.reduce((sum, row) => sum + row.share, 0)).toBeCloseTo(1, 6);
      }
    }
  });
  it('shares the gain of the meter between the methods, so that it cancels in their difference', () => {
    const { agreement } = figure('boil-off');
    expect(agreement?.agree).toBe(true);
    const { first, second, standardUncertainty } = agreement!;
    for (const value of [first, second])
      expect(value.budget.map(({ id }) => id)).toContain('instrument:meter-1:gain');
    expect(standardUncertainty).toBeLessThan(
      Math.hypot(first.standardUncertainty, second.standardUncertainty),
    );
    expect(agreement!.difference).toBeCloseTo(first.value - second.value, 12);
  });
  it('gives κ and the body with their covariance', () => {
    const { values, covariance } = figure('two-fills');
    expect(Math.sqrt(covariance![0]![0]!)).toBeCloseTo(values[0]!.standardUncertainty, 12);
    expect(Math.sqrt(covariance![1]![1]!)).toBeCloseTo(values[1]!.standardUncertainty, 9);
    // A larger κ takes a larger body with it: the intercept is divided by the slope.
    expect(covariance![0]![1]!).not.toBe(0);
  });
  it('hands UA and the body on to the heat balance of the heatings', () => {
    const [run] = evaluation.runs;
    expect(run!.loss?.from).toMatch(/cool-down.*cooling-closed/);
    expect(run!.balance.map(({ name }) => name)).toContain('room');
    expect(evaluation.figures[0]!.transfer?.bodyHeatCapacityJPerK).not.toBeNull();
  });
});

describe('result', () => {
  it('says each in a line with its uncertainty', async () => {
    const { code, stdout, stderr } = await runLine(['result', '--workbook', dir]);
    expect(code, stderr).toBe(0);
    for (const words of [
      /Loss to the room, lid on: 2\.\d+ ± 0\.\d+ W\/K \(one run, steam apart\)/,
      /Loss to the room, lid off: 2\.\d+ ± 0\.\d+ W\/K/,
      /Time constant, lid on: \d+ ± \d+ min/,
      /Holding 65\.\d °C with the lid on, room 1\d\.\d °C: 18\d ± \d+ W at the meter/,
      /Standing loss: \d+ ± \d+ Wh in an hour; 4\.\d+ ± 0\.\d+ kWh in 24 h at 45 K above the room/,
      /At the boil 6\d\.\d ± \d\.\d % of the energy left as steam \(2 runs, without the thermometer\)/,
      /With the loss to the room added, .* at the boil and .* by the thermometer \(water-heating\): they agree \(difference .* points\)\./,
      /8\d\.\d ± \d\.\d % of the energy reaches body and load \(κ, 4 runs at two fills\)/,
      /The heater body takes \d+ ± \d+ J\/K/,
      /78 % reached the water/,
    ])
      expect(stdout).toMatch(words);
  });
  it('gives budgets with --detail', async () => {
    const { stdout } = await runLine(['result', '--workbook', dir, '--detail']);
    expect(stdout).toMatch(
      /UA, loss to the room for each kelvin: 2\.\d+ ± 0\.\d+ W\/K \(coverage 95 %, k = /,
    );
    expect(stdout).toMatch(/correlation of the first two values/);
    expect(stdout).toMatch(/scatter from run to run, assumed \(assumed\)/);
    expect(stdout).toMatch(/run vat-warmer-full-third-01: fit of two nodes\. The curve fits/);
  });
  it('gives data with --json', async () => {
    const data = await runLineJson<{
      methods: { method: string; setting: string | null; values: { name: string; interval: number[] }[] }[];
    }>(['result', '--workbook', dir]);
    expect(data.methods.map(({ method, setting }) => [method, setting])).toEqual([
      ['cool-down', null],
      ['cool-down', null],
      ['hold', 'gentle'],
      ['boil-off', 'full'],
      ['two-fills', 'full'],
    ]);
    for (const { values } of data.methods)
      for (const { interval } of values) expect(interval.every((end) => Number.isFinite(end))).toBe(true);
  });
  it('speaks of one heater and setting only where that is asked for', async () => {
    const { stdout } = await runLine(['result', '--workbook', dir, '--setting', 'gentle']);
    expect(stdout).toMatch(/Holding/);
    expect(stdout).not.toMatch(/At the boil/);
  });
});
