import { describe, expect, it } from 'vitest';
import {
  detailWords,
  doubts,
  evaluateFigure,
  forecast,
  halfWidth,
  percentWithUncertainty,
  type Plan,
  planLike,
} from '../../src/evaluation/index.js';
import { SourceBook } from '../../src/uncertainty/index.js';
import type { Instrument } from '../../src/workbook/index.js';
import {
  type Bench,
  bare,
  evaluated,
  heater,
  instruments,
  kelvin,
  plain,
  type Readings,
  runOf,
  shipped,
  workbookOf,
} from './dairy.js';

const root3 = Math.sqrt(3);
const assumption = { relative: 0.02, words: 'assumed 2 % of the value (common practice, no source)' };

/** Runs evaluated with one book, as those of a workbook are. */
function figureOf(readings: readonly Partial<Readings>[], bench: Bench = {}, protocol = bare) {
  const book = new SourceBook();
  const runs = readings.map((each, i) => evaluated(each, { book, bench, protocol, id: `run-${i + 1}` }));
  return evaluateFigure(runs, 'water', assumption)!;
}

/** Runs that differ by a few steps of every display, so that no rounding is shared; the same few over and over. */
const varied = (count: number) =>
  Array.from({ length: count }, (_, i) => {
    const step = [-1, 0, 1][i % 3]!;
    return {
      emptyKg: plain.emptyKg + step * 0.002,
      fullKg: plain.fullKg - step * 0.003,
      finalKg: plain.fullKg - step * 0.003,
      startC: plain.startC + step * 0.2,
      endC: plain.endC + step * 0.2,
      afterKWh: plain.afterKWh + step * 0.003,
    };
  });

const contributionOf = (figure: ReturnType<typeof figureOf>, id: string) =>
  figure.budget
    .filter((row) => row.id.includes(id))
    .reduce((sum, row) => Math.hypot(sum, row.contribution), 0);

describe('repeats', () => {
  const [three, twelve] = [figureOf(varied(3)), figureOf(varied(12))];
  it("don't shrink the meter's gain error", () => {
    // 1 %/√3 of the value, in three runs as in twelve
    for (const figure of [three, twelve]) {
      const gain = contributionOf(figure, 'meter-1:gain');
      expect(gain / ((figure.efficiency.value * 0.01) / root3)).toBeCloseTo(1, 3);
      expect(figure.efficiency.standardUncertainty).toBeGreaterThan(gain);
    }
  });
  it("don't shrink the limits of thermometer and scale, read at the same levels", () => {
    for (const id of ['thermometer-1:absolute:start', 'thermometer-1:absolute:end', 'scale-1:absolute:full'])
      expect(contributionOf(twelve, id) / contributionOf(three, id)).toBeCloseTo(1, 3);
  });
  it('do shrink the scatter', () => {
    const [of3, of12] = [contributionOf(three, 'between-runs'), contributionOf(twelve, 'between-runs')];
    // The same spread: s/√12 against s/√3, where s is that over n − 1: √((8/11)/(2/2)) of it.
    expect(of12 / of3).toBeCloseTo(Math.sqrt((3 / 12) * (8 / 11)), 1);
    expect(halfWidth(twelve)).toBeLessThan(halfWidth(three));
  });
  it('under the same digits share their rounding', () => {
    const same = (count: number) => figureOf(Array.from({ length: count }, () => ({})));
    const [of3, of12] = [same(3), same(12)];
    expect(of12.efficiency.standardUncertainty / of3.efficiency.standardUncertainty).toBeCloseTo(1, 1);
    // The two steps of the counter, 0.001 kWh on 0.4 kWh each
    const steps = of12.budget.filter((row) => row.id.startsWith('common:') && row.instrument === 'meter-1');
    expect(steps).toHaveLength(2);
    for (const row of steps)
      expect(row.contribution / ((of12.efficiency.value * 0.0005) / 0.4 / root3)).toBeCloseTo(1, 3);
    // Something is left in doubt though the runs agree to the last digit.
    expect(of12.efficiency.standardUncertainty).toBeGreaterThan(0.005 * of12.efficiency.value);
  });
  it.each([1, 2, 3, 5])('of %d leave a budget whose shares are parts of one', (count) => {
    const { budget } = figureOf(varied(count));
    expect(budget.reduce((sum, row) => sum + row.share, 0)).toBeCloseTo(1, 9);
  });
});

describe('one run or two', () => {
  const [one, two] = [figureOf([{}]), figureOf(varied(2))];
  it('are marked, and the protocol asks for more', () => {
    expect([one.mark, two.mark, figureOf(varied(3)).mark]).toEqual(['one run', 'two runs', null]);
    expect(one.warnings.join(' ')).toMatch(/asks for 3 runs or more; there is 1\./);
    expect(two.warnings.join(' ')).toMatch(/there are 2\./);
  });
  it('take an assumed scatter, labelled, never zero', () => {
    for (const figure of [one, two]) {
      expect(figure.spread).toMatchObject({ basis: 'assumed', words: assumption.words });
      const mean =
        figure.runs.reduce((sum, run) => sum + run.efficiency.water!.value, 0) / figure.runs.length;
      expect(figure.spread.standardDeviation).toBeCloseTo(0.02 * mean, 12);
      const row = figure.budget.find((each) => each.id === 'between-runs')!;
      expect(row).toMatchObject({ assumed: true, source: 'scatter from run to run, assumed' });
      expect(row.contribution).toBeCloseTo((0.02 * mean) / Math.sqrt(figure.runs.length), 6);
    }
  });
  it('have the intervals of the hand calculation', () => {
    // One run: its own u and 2 % in quadrature; the next heating scatters by 2 % once more; k = 1.96.
    const run = one.runs[0]!.efficiency.water!;
    const mean = Math.hypot(run.standardUncertainty, 0.02 * run.value);
    expect(one.efficiency.standardUncertainty).toBeCloseTo(mean, 9);
    expect(one.efficiency.coverageFactor).toBeCloseTo(1.96, 3);
    expect(halfWidth(one)).toBeCloseTo(1.959_964 * Math.hypot(mean, 0.02 * run.value), 6);
    expect(one.efficiency.value).toBe(run.value);
  });
  it('with three the scatter is seen', () => {
    const three = figureOf(varied(3));
    expect(three.spread).toMatchObject({ basis: 'seen', words: 'seen in 3 runs' });
    expect(three.budget.find((row) => row.id === 'between-runs')).toMatchObject({ assumed: false });
  });
});

describe('a figure', () => {
  it('of no runs is none, and of runs that lack the definition neither', () => {
    expect(evaluateFigure([], 'water', assumption)).toBeNull();
    const run = evaluated();
    expect(evaluateFigure([run], 'water+vessel', assumption)).toBeNull();
    expect(evaluateFigure([run], 'water', assumption)!.definitions).toMatchObject({ 'water+vessel': null });
  });
  it('has the other definitions beside it', () => {
    const steel = { heater: { ...heater, vessel: { material: 'stainless steel' } } };
    const { definitions, efficiency } = figureOf([{ finalKg: 7.861 }], steel);
    expect(definitions.water!.value).toBe(efficiency.value);
    // 1.871 kg · 500 J/(kg K) · 40 K on 1440 kJ
    expect(definitions['water+vessel']!.value - efficiency.value).toBeCloseTo(37.42 / 1440, 5);
    // 10 g of steam at about 2.6 − 0.08 MJ/kg
    expect(definitions['water+vapour']!.value - efficiency.value).toBeCloseTo(25.1 / 1440, 3);
  });
  it('is warned of lids and fills that differ', () => {
    const mixed = figureOf([{}, { lid: 'off' }, { emptyKg: 1.4 }]);
    expect(mixed.warnings.join(' ')).toMatch(/lid the same way/);
    expect(mixed.warnings.join(' ')).toMatch(/fill differed.*6\.01 to 6\.48 kg/);
  });
  it('keeps its other coverage', () => {
    const run = evaluated();
    const [of95, of99] = [0.95, 0.99].map(
      (coverage) => evaluateFigure([run], 'water', assumption, coverage)!,
    );
    expect(of99!.efficiency.coverage).toBe(0.99);
    expect(halfWidth(of99!) / halfWidth(of95!)).toBeCloseTo(2.575_83 / 1.959_96, 4);
  });
});

describe('a forecast', () => {
  const waterKg = plain.fullKg - plain.emptyKg;
  const efficiency = 0.7;
  const energyKWh = (waterKg * 4186 * 40) / efficiency / 3.6e6;
  const assumed: Instrument = { ...instruments.meter, resolution: 36_000, assumed: true };
  it.each([
    ['water-heating', true, 'on'],
    ['water-heating', false, 'off'],
    ['first-heating', false, null],
  ])('is the evaluation of the run it forecasts: %s, weighed after: %s', (name, weighAfter, lid) => {
    const protocol = shipped(name);
    const workbook = workbookOf({ meter: assumed });
    const run = runOf(
      protocol,
      {
        ...plain,
        finalKg: weighAfter ? plain.emptyKg + 0.997 * waterKg : null,
        lid,
        beforeKWh: 0,
        afterKWh: energyKWh,
        heatingS: (energyKWh * 3.6e6) / 900,
      },
      { bench: { meter: assumed } },
    );
    const plan: Plan = {
      workbook,
      protocol,
      heater,
      setting: 'full',
      instruments: run.instruments,
      waterKg,
      riseK: 40,
      startK: kelvin(20),
      powerW: 900,
      efficiency,
      weighAfter,
      lid,
      vesselKg: plain.emptyKg,
      runs: 1,
    };
    const real = figureOf(
      [
        {
          finalKg: weighAfter ? plain.emptyKg + 0.997 * waterKg : null,
          lid,
          beforeKWh: 0,
          afterKWh: energyKWh,
          heatingS: (energyKWh * 3.6e6) / 900,
        },
      ],
      { meter: assumed },
      protocol,
    );
    const found = forecast(plan);
    expect(found.efficiency.value).toBeCloseTo(real.efficiency.value, 9);
    // The hour of each reading differs, and with it where the steam left, by less than a hundredth of its doubt.
    expect(found.efficiency.standardUncertainty).toBeCloseTo(real.efficiency.standardUncertainty, 6);
    expect(halfWidth(found)).toBeCloseTo(halfWidth(real), 6);
  });
  it('of more runs is narrower, but never below what they share', () => {
    const figure = figureOf([{}]);
    const plan = planLike(figure, workbookOf());
    const widths = [1, 2, 6].map((runs) => halfWidth(forecast({ ...plan, runs })));
    expect(widths[1]).toBeLessThan(widths[0]!);
    const shared = contributionOf(figure, 'meter-1:gain');
    expect(widths[2]).toBeGreaterThan(1.96 * shared);
  });
  it('like the runs that were made has their readings', () => {
    const bench = { heater: { ...heater, vessel: { material: 'steel' } } };
    const plan = planLike(figureOf([{}], bench), workbookOf(bench));
    expect(plan).toMatchObject({
      vesselKg: 1.871,
      riseK: 40,
      startK: kelvin(20),
      weighAfter: true,
      lid: 'on',
      runs: 1,
    });
    expect(plan.waterKg).toBeCloseTo(6.0063, 4);
    expect(plan.powerW).toBeCloseTo(900, 6);
  });
});

describe('doubts', () => {
  it('put the sources of one cause together, and the scatter of the next heating with that of the mean', () => {
    const figure = figureOf([{}]);
    const workbook = workbookOf();
    const found = doubts(figure, workbook.instruments);
    expect(found.reduce((sum, doubt) => sum + doubt.share, 0)).toBeCloseTo(1, 12);
    const shares = Object.fromEntries(found.map((doubt) => [doubt.kind, doubt.share]));
    const total = figure.efficiency.standardUncertainty ** 2 + figure.spread.standardDeviation ** 2;
    expect(shares.scatter).toBeCloseTo((2 * figure.spread.standardDeviation ** 2) / total, 9);
    expect(shares.meter).toBeCloseTo(contributionOf(figure, 'meter-1:gain') ** 2 / total, 9);
    expect(shares.thermometer).toBeCloseTo(
      (contributionOf(figure, 'thermometer-1') ** 2 +
        figure.budget
          .filter((row) => row.instrument === 'thermometer-1' && row.id.startsWith('run:'))
          .reduce((sum, row) => sum + row.contribution ** 2, 0)) /
        total,
      9,
    );
    expect(found[0]).toMatchObject({ kind: 'scatter', words: 'scatter from run to run, assumed' });
  });
  it('name steam that nobody weighed', () => {
    const found = doubts(figureOf([{ finalKg: null, lid: 'off' }]), workbookOf().instruments);
    expect(found.find((doubt) => doubt.kind === 'steam')!.words).toBe('the steam that was not weighed');
  });
});

describe('the figure with --detail', () => {
  it('says value, k, budget, definitions, balance and energies', () => {
    const lines = detailWords(figureOf(varied(3))).join('\n');
    expect(lines).toMatch(/efficiency, definition "water": 69\.\d ± \d\.\d % \(coverage 95 %, k = \d\.\d\d/);
    expect(lines).toMatch(/standard deviation between runs 0\.\d+ %, seen in 3 runs/);
    expect(lines).toMatch(/plug-in wattmeter: limit of reading/);
    expect(lines).toMatch(/water\+vessel +not measured/);
    expect(lines).toMatch(/room and rest, not separated +0\.\d+ ± 0\.\d+ kWh/);
    expect(lines).toMatch(/energy typed: 0\.4\d* ± 0\.\d+ kWh \(counter, typed at the bench, used\)/);
  });
  it('rounds a ratio to its uncertainty', () =>
    expect(percentWithUncertainty(0.561_23, 0.045_6)).toBe('56.1 ± 4.6 %'));
});
