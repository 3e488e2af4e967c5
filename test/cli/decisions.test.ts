/** The commands that decide: correct, compare, plan, and whether a required efficiency is reached. */
import { appendFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { copyOf, treeOf } from '../support/folders.js';
import { heatledger, heatledgerJson } from '../support/program.js';

interface FigureData {
  heater: string;
  setting: string;
  efficiency: { value: number; standardUncertainty: number; interval: [number, number] };
  prediction: { interval: [number, number] };
  mark: string | null;
  spread: { basis: string; standardDeviation: number };
  withExcluded: {
    value: number;
    runs: { run: string; exclusion: { reason: string; resultSeen: boolean } }[];
  } | null;
  conformity?: { verdict: string; probabilityConforming: number; declared: string };
  runs: { run: string }[];
}
const dairy = () => copyOf('samples/dairy');
const figures = async (dir: string, ...more: string[]) =>
  (await heatledgerJson<{ figures: FigureData[] }>(['result', '--workbook', dir, ...more])).figures;
const of = (all: FigureData[], setting: string) => all.find((each) => each.setting === setting) as FigureData;

describe('correct --exclude', () => {
  it('takes a run out of its figure, shows the result with and without, and lets it count again', async () => {
    const dir = dairy();
    const before = of(await figures(dir), 'gentle');
    const args = ['correct', 'vat-warmer-gentle-01', '--workbook', dir];
    expect((await heatledger([...args, '--exclude', '--reason', 'lid was off'])).code).toBe(0);
    const without = of(await figures(dir), 'gentle');
    expect(without.runs.map((run) => run.run)).toEqual(['vat-warmer-gentle-02', 'vat-warmer-gentle-03']);
    expect(without.mark).toBe('two runs');
    expect(without.spread.basis).toBe('assumed');
    expect(without.withExcluded?.value).toBe(before.efficiency.value);
    expect(without.withExcluded?.runs[0]).toMatchObject({
      run: 'vat-warmer-gentle-01',
      exclusion: { reason: 'lid was off', resultSeen: true },
    });
    expect((await heatledger([...args, '--include', '--reason', 'it was on after all'])).code).toBe(0);
    expect(of(await figures(dir), 'gentle').efficiency).toEqual(before.efficiency);
  });

  it('needs a reason, a run that is there, a hand that is known, and refuses to do it twice; nothing is changed', async () => {
    const dir = dairy();
    const base = ['correct', '--workbook', dir, '--exclude'];
    const tree = treeOf(dir);
    for (const args of [
      [...base, 'vat-warmer-gentle-01'],
      [...base, 'vat-warmer-gentle-01', '--reason', '  '],
      [...base, 'vat-warmer-gentle-99', '--reason', 'x'],
      [...base, 'vat-warmer-gentle-01', '--reason', 'x', '--hand', 'nobody'],
      ['correct', 'vat-warmer-gentle-01', '--workbook', dir, '--reason', 'x'],
      ['correct', 'vat-warmer-gentle-01', '--workbook', dir, '--include', '--reason', 'x'],
    ]) {
      const ended = await heatledger(args);
      expect(ended.code, args.join(' ')).toBe(1);
      expect(ended.stderr.trim()).not.toBe('');
    }
    expect(treeOf(dir)).toEqual(tree);
  });

  it('keeps whether the result had been seen: not yet while a run is unfinished', async () => {
    const dir = dairy();
    const journal = join(dir, 'runs', 'vat-warmer-full-01', 'journal.jsonl');
    const lines = readFileSync(journal, 'utf8').trimEnd().split('\n');
    writeFileSync(journal, `${lines.slice(0, 8).join('\n')}\n`);
    const args = [
      'correct',
      'vat-warmer-full-01',
      '--workbook',
      dir,
      '--exclude',
      '--reason',
      'the lid fell',
    ];
    expect((await heatledger(args)).code).toBe(0);
    const last = JSON.parse(readFileSync(journal, 'utf8').trimEnd().split('\n').at(-1) as string);
    expect(last).toMatchObject({ event: 'exclude', resultSeen: false, reason: 'the lid fell' });
  });
});

describe('compare', () => {
  interface Compared {
    pairs: {
      first: string;
      second: string;
      difference: number;
      interval: [number, number];
      standardUncertainty: number;
      probabilityHigher: number;
    }[];
    ranking: { figure: string; rank: number; ranks: [number, number]; settled: boolean }[];
  }
  it('cancels what the figures share: the difference is surer than two figures by themselves', async () => {
    const dir = dairy();
    const all = await figures(dir);
    const { pairs, ranking } = await heatledgerJson<Compared>(['compare', '--workbook', dir]);
    expect(pairs).toHaveLength(3);
    const pair = pairs.find(
      (each) => each.first.endsWith('medium') && each.second.endsWith('full'),
    ) as Compared['pairs'][number];
    const [medium, full] = [of(all, 'medium'), of(all, 'full')];
    expect(pair.difference).toBeCloseTo(medium.efficiency.value - full.efficiency.value, 12);
    const apart = Math.hypot(medium.efficiency.standardUncertainty, full.efficiency.standardUncertainty);
    expect(pair.standardUncertainty).toBeLessThan(apart);
    // The 1 % gain of the one meter, rectangular, leaves only its part of the difference.
    const gain = 0.01 / Math.sqrt(3);
    const without = apart ** 2 - gain ** 2 * (medium.efficiency.value ** 2 + full.efficiency.value ** 2);
    expect(pair.standardUncertainty).toBeLessThan(Math.sqrt(without + (gain * pair.difference) ** 2) + 1e-4);
    expect(ranking.map((each) => each.rank)).toEqual([1, 2, 3]);
  });

  it('finds the same settings of two copies in agreement, E_n of 0, and a moved one apart', async () => {
    const [here, there] = [dairy(), dairy()];
    const same = await heatledgerJson<{ labs: { en: { score: number }; zeta: { score: number } }[] }>([
      'compare',
      '--workbook',
      here,
      '--other',
      there,
    ]);
    expect(same.labs.map((lab) => lab.en.score)).toEqual([0, 0, 0]);
    // The other lab's meter reads 8 % high, as its certificate says: its efficiencies come out that much higher.
    const meter = join(there, 'instruments', 'meter-1.yaml');
    const text = readFileSync(meter, 'utf8').replace(/limits:[\s\S]*$/, '');
    writeFileSync(
      meter,
      `${text}certificate:\n  number: (invented)\n  date: 2026-01-01\n  due: 2028-01-01\n  points:\n    - { at: 900 W, correction: -8 %, expandedUncertainty: 0.2 % }\n`,
    );
    const moved = await heatledgerJson<{
      labs: { figure: string; en: { score: number; verdict: string } }[];
    }>(['compare', '--workbook', here, '--other', there, 'vat-warmer/full']);
    expect(moved.labs[0]?.en).toMatchObject({ verdict: 'unsatisfactory' });
    expect(moved.labs[0]?.en.score).toBeLessThan(-1);
  });

  it('says what is wrong: one figure, an unknown one, no such workbook', async () => {
    const dir = dairy();
    for (const args of [
      ['vat-warmer/full'],
      ['vat-warmer/full', 'vat-warmer/turbo'],
      ['--other', join(dir, 'nowhere')],
    ]) {
      const ended = await heatledger(['compare', ...args, '--workbook', dir]);
      expect(ended.code, args.join(' ')).toBe(1);
    }
  });
});

describe('result --at-least', () => {
  it('gives three verdicts, and marks a rule that was stated after the runs', async () => {
    const verdicts = (await figures(dairy(), '--at-least', '0.75')).map((each) => [
      each.setting,
      each.conformity?.verdict,
      each.conformity?.declared,
    ]);
    expect(verdicts).toEqual([
      ['gentle', 'not met', 'later'],
      ['medium', 'undecided', 'later'],
      ['full', 'met', 'later'],
    ]);
  });

  it('takes a rule in the record as declared before, where its day lies before the first run', async () => {
    const dir = dairy();
    const file = join(dir, 'heaters', 'vat-warmer.yaml');
    const claim = (day: string) =>
      readFileSync(file, 'utf8').replace(
        /\{ id: full,/,
        `{ id: full, claim: { atLeast: 75 %, risk: 0.05, declared: ${day} },`,
      );
    const text = claim('2026-10-04');
    expect(text).toContain('claim:');
    writeFileSync(file, text);
    expect(of(await figures(dir), 'full').conformity?.declared).toBe('before the first run');
    expect(of(await figures(dir, '--at-least', '75 %'), 'full').conformity?.declared).toBe(
      'before the first run',
    );
    expect(of(await figures(dir, '--at-least', '0.76'), 'full').conformity?.declared).toBe('later');
  });

  it('refuses a share outside (0, 1] and a risk outside (0, 0.5]', async () => {
    const dir = dairy();
    for (const args of [
      ['--at-least', '1.2'],
      ['--at-least', '0'],
      ['--at-least', 'much'],
      ['--at-least', '0.7', '--risk', '0.9'],
    ]) {
      expect((await heatledger(['result', '--workbook', dir, ...args])).code, args.join(' ')).toBe(1);
    }
  });
});

describe('plan', () => {
  interface Plan {
    plan: { meanHalfWidth: number; predictionHalfWidth: number; runs: number };
    cheapest: { meanHalfWidth: number; runs: number; waterKg: number } | null;
    order: string[];
  }
  it('meets a target where it says so, and says when no plan does', async () => {
    const dir = dairy();
    const found = await heatledgerJson<Plan>([
      'plan',
      '--workbook',
      dir,
      '--setting',
      'gentle',
      '--target',
      '0.02',
    ]);
    expect(found.plan.meanHalfWidth).toBeGreaterThan(0.02);
    expect(found.cheapest?.meanHalfWidth).toBeLessThanOrEqual(0.02);
    const none = await heatledgerJson<Plan>([
      'plan',
      '--workbook',
      dir,
      '--setting',
      'gentle',
      '--target',
      '0.001',
    ]);
    expect(none.cheapest).toBeNull();
  });

  it('draws the same order for the same seed, each setting as often as there are runs', async () => {
    const args = ['plan', '--workbook', dairy(), '--runs', '4', '--seed'];
    const [one, same, other] = await Promise.all(
      ['a', 'a', 'b'].map((seed) => heatledgerJson<Plan>([...args, seed])),
    );
    expect(one?.order).toEqual(same?.order);
    expect(one?.order).not.toEqual(other?.order);
    const count = (setting: string) => one?.order.filter((each) => each === setting).length;
    expect(['gentle', 'medium', 'full'].map(count)).toEqual([4, 4, 4]);
  });

  it('makes a rota in which no meter is used twice at once and every heater cools between its runs', async () => {
    const args = [
      'plan',
      '--workbook',
      dairy(),
      '--setting',
      'full',
      '--day',
      '--heaters',
      '6',
      '--meters',
      '2',
      '--hours',
      '9',
      '--cool',
      '2 h',
    ];
    const { rota } = await heatledgerJson<{
      rota: {
        slots: { meter: number; heater: string; run: number; startS: number; endS: number }[];
        left: string[];
      };
    }>(args);
    expect(rota.left).toEqual([]);
    expect(rota.slots.length).toBeGreaterThan(6);
    for (const [i, slot] of rota.slots.entries()) {
      expect(slot.endS).toBeLessThanOrEqual(9 * 3600);
      for (const other of rota.slots.slice(i + 1)) {
        if (other.meter === slot.meter) expect(other.startS).toBeGreaterThanOrEqual(slot.endS);
        if (other.heater === slot.heater) expect(other.startS).toBeGreaterThanOrEqual(slot.endS + 7200);
      }
    }
  });

  it('refuses what can’t be', async () => {
    const dir = dairy();
    for (const args of [
      ['--runs', '0'],
      ['--water', '-1 kg'],
      ['--target', '2'],
      ['--efficiency', '1.4'],
      ['--rise', '90 K'],
      ['--day', '--hours', '40'],
      ['--day', '--hours', '0.5'],
    ]) {
      const ended = await heatledger(['plan', '--workbook', dir, '--setting', 'full', ...args]);
      expect(ended.code, args.join(' ')).toBe(1);
    }
  });
});

describe('an outlying run', () => {
  it('is pointed out and never dropped', async () => {
    const dir = dairy();
    const values = await figures(dir);
    expect(of(values, 'full').runs).toHaveLength(3);
    appendFileSync(join(dir, 'workbook.yaml'), '\n');
    const { stdout } = await heatledger(['result', '--workbook', dir, '--detail']);
    expect(stdout).toMatch(/farthest run: vat-warmer-full-0\d, Grubbs' G/);
    expect(stdout).toMatch(/consistency of the runs: chi-squared/);
  });
});
