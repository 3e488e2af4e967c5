import { describe, expect, it } from 'vitest';
import { MemoryKeeper, beginEntry } from '../../src/protocols/index.js';
import { campaign, recordOf } from '../bench/coverage/campaign.mjs';
import { bars, cells, figuresOf, overBars, sum, tally } from '../bench/coverage/cells.mjs';
import { freshU, limits, meters, openLab, thermometerPoints } from '../bench/coverage/lab.mjs';
import { Draw } from '../bench/coverage/random.mjs';
import { heating, nominal, waterEnthalpy } from '../bench/coverage/world.mjs';
import { sit } from '../protocols/sitting.js';
import { waterAt101325Pa } from '../reference/water.js';

const lab = openLab();
type Cell = (typeof cells)[number];
const cellOf = (id: string): Cell => cells.find((cell) => cell.id === id)!;

describe('the true world of the coverage bench', () => {
  it('has water as published', () => {
    const at = (tC: number) => waterAt101325Pa.find((row) => row.tC === tC)!.enthalpyIf97 * 1000;
    // Half a joule is 0.0003 % of a rise of 40 K.
    for (const { tC } of waterAt101325Pa.filter((row) => row.tC >= 5 && row.tC <= 60))
      expect(Math.abs(waterEnthalpy(tC) - (at(tC) - at(30))), `${tC} °C`).toBeLessThan(0.5);
  });

  it('draws the shapes it speaks of', () => {
    const draw = new Draw(3, 1);
    const many = (of: () => number) => Array.from({ length: 20_000 }, of);
    const mean = (values: number[]) => values.reduce((total, x) => total + x, 0) / values.length;
    const square = (values: number[]) => mean(values.map((x) => x * x));
    // Four standard deviations of a mean of 20,000: of x by 4σ/√n, of x² by 4√(μ₄ − σ⁴)/√n.
    const normal = many(() => draw.normal(2));
    expect(Math.abs(mean(normal))).toBeLessThan(8 / Math.sqrt(20_000));
    expect(Math.abs(square(normal) - 4)).toBeLessThan((4 * 4 * Math.SQRT2) / Math.sqrt(20_000));
    const rectangular = many(() => draw.within(1));
    expect(Math.abs(mean(rectangular))).toBeLessThan(4 / Math.sqrt(3 * 20_000));
    expect(Math.abs(square(rectangular) - 1 / 3)).toBeLessThan((4 * Math.sqrt(4 / 45)) / Math.sqrt(20_000));
    const efficiencies = many(() => draw.efficiency(0.9, 0.5));
    expect(efficiencies.every((each) => each > 0 && each <= 1)).toBe(true);
    expect(Math.max(...efficiencies)).toBeGreaterThan(0.99);
  });

  it('keeps its books: water heated over the energy that went in is the efficiency', () => {
    const truth = heating(new Draw(1, 1), { spread: 0.02, riseFactor: 1.001, bodyJ: 900 });
    const rise = (waterEnthalpy(truth.endC) - waterEnthalpy(truth.startC)) * 1.001;
    const heatJ = (truth.waterKg - truth.steamKg) * rise;
    expect(heatJ / (truth.energyJ + 900)).toBeCloseTo(truth.efficiency, 12);
  });

  it('is on the road of the program: the records are what a walk through the procedure gives', async () => {
    const { evaluations } = campaign(lab, cellOf('n3-spread1-shared1'), 8, 0);
    const built = evaluations[0]!.run;
    const typed = Object.fromEntries(built.readings.map((reading) => [reading.step, reading.typed]));
    const plan = { heater: built.heater, setting: built.setting, hand: 'mr', at: new Date(built.startedAt) };
    const { protocol, text: protocolText } = lab;
    const more = { run: built.id, protocol, protocolText, instruments: built.instruments };
    const keeper = new MemoryKeeper(beginEntry(lab.workbook, { ...plan, ...more }));
    const agreed = ['atRest', 'draughtFree'];
    const answer = ({ step }: { step: string }) => typed[step] ?? (agreed.includes(step) ? 'yes' : '');
    const { run, outcome } = await sit(answer, { protocol, keeper });
    expect(outcome).toBe('ended');
    // But for the times, of which the evaluation needs the two of the switch.
    const timeless = (record: typeof run) => ({
      readings: record.readings.map(({ at, ...reading }) => reading),
      choices: record.choices,
      steps: record.entries.map((entry) => ('step' in entry ? entry.step : entry.event)),
      marks: Object.keys(record.marks),
    });
    expect(timeless(built)).toEqual(timeless(run));
    const again = recordOf(lab, 'x', 'meter-1', typed, 1200);
    expect(Date.parse(again!.marks.switchOff!) - Date.parse(again!.marks.switchOn!)).toBe(1_200_000);
  });

  it.each([0.5, 1, 3] as const)('draws every error that the program states, of its size (%d)', (shared) => {
    const { evaluations } = campaign(lab, { runs: 1, spread: 1, shared }, 8, 0);
    const run = evaluations[0]!;
    const allowances = lab.protocol.allowances.filter((each) => each.id !== 'wetted-vessel');
    const rectangular = (halfWidth: number) => ({ distribution: 'rectangular', u: halfWidth / Math.sqrt(3) });
    const known: [RegExp, { distribution: string; u: number }][] = [
      [/^instrument:scale:absolute:(empty|full)$/, rectangular(limits.scaleKg)],
      [/^run:.*:repeat$/, rectangular(0.2 * limits.scaleKg)],
      [/^run:.*:(7|16):step$/, rectangular(limits.scaleStepKg / 2)],
      [/^run:.*:(11|15):step$/, rectangular(limits.thermometerStepK / 2)],
      [/^run:.*:energy-(before|after):step$/, rectangular(limits.counterStepKWh * 1.8e6)],
      [/^run:.*:body-at-rest$/, rectangular(lab.protocol.limits.maximumRestDifference)],
      [/^instrument:thermometer:certificate:[12]$/, { distribution: 'normal', u: limits.thermometerK }],
      [/^instrument:meter-.*:certificate:[12]$/, { distribution: 'normal', u: meters[shared] / 2 }],
      [/^lab:water-formulation$/, rectangular(0.0004)],
      ...allowances.map(
        (each) =>
          [new RegExp(`:${each.id}:`), rectangular(each.halfWidthSi)] as [
            RegExp,
            { distribution: string; u: number },
          ],
      ),
    ];
    const budget = run.efficiency.water!.budget;
    // Air pressure is left out: what it does is 0.0001 % of the efficiency.
    const counting = budget.filter(({ contribution }) => contribution > 2e-6);
    for (const { source } of counting) {
      const found = known.filter(([pattern]) => pattern.test(source.id));
      expect(found.length, source.id).toBe(1);
      expect(source.distribution, source.id).toBe(found[0]![1].distribution);
      expect(source.standardUncertainty, source.id).toBeCloseTo(found[0]![1].u, 9);
    }
    expect(thermometerPoints.length).toBe(2);
    expect(run.efficiency.water!.value).toBeCloseTo(nominal.efficiency, 0);
  });
});

describe('the verdict of the coverage bench', () => {
  it('has 36 cells, each with a seed of its own', () => {
    expect(cells.length).toBe(36);
    expect(new Set(cells.map((cell) => cell.seed)).size).toBe(36);
    expect(new Set(cells.map((cell) => cell.id)).size).toBe(36);
  });

  const cell = cellOf('n5-spread1-shared1');
  const good = {
    ...{ cell: cell.id, campaigns: 5000, spreadRatio: 1, sharedRatio: 1, mean: 0.96, prediction: 0.96 },
    ...{ meanWidth: 1.1, predictionWidth: 1.4, error: 1 },
  };
  const worst = (change: Partial<typeof good>) =>
    Math.max(...Object.values(overBars(cell, { ...good, ...change })));
  it.each([
    [{}, true],
    [{ mean: 0.94 }, true],
    [{ mean: 0.9398 }, false],
    [{ mean: 0.9802 }, false],
    [{ prediction: 0.9348 }, false],
    [{ prediction: 0.9902 }, false],
    [{ predictionWidth: 1.61 }, false],
    [{ spreadRatio: 1.06 }, false],
    [{ sharedRatio: 0.94 }, false],
  ])('%j holds: %s', (change, holds) => expect(worst(change) <= 1 + 1e-9).toBe(holds));

  it('does not depend on who counts which campaigns', () => {
    const whole = tally(lab, cell, 0, 6);
    const parts = sum([tally(lab, cell, 0, 2), tally(lab, cell, 2, 6)]);
    for (const key of Object.keys(whole) as (keyof typeof whole)[])
      expect(parts[key], key).toBeCloseTo(whole[key], 12);
  });
});

// The bench counts 5,000 campaigns a cell; these are 800 in some cells, with its seeds and so its first campaigns. A share
// p of them has a standard deviation of √(p(1 − p)/800), and each bar is widened by four of them: 0.906 to 0.9998 for the
// mean, so that neither intervals too narrow nor such as hold every time pass; from 0.900 for the prediction. The
// root mean square of errors over their standard deviation is 1 within four times 1/√1600; shapes less peaked than the normal
// one keep closer.
const campaigns = 800;
const four = (p: number) => 4 * Math.sqrt((p * (1 - p)) / campaigns);

describe(`${campaigns} seeded campaigns from a true world to an interval`, () => {
  it.each(['n3-spread1-shared1', 'n3-spread3-shared0.5', 'n5-spread0.5-shared1', 'n10-spread3-shared1'])(
    '%s',
    { timeout: 300_000 },
    (id) => {
      const cell = cellOf(id);
      const figures = figuresOf(cell, tally(lab, cell, 0, campaigns), cell.spread * freshU);
      const message = JSON.stringify(figures);
      const [low, high] = bars.mean as [number, number];
      expect(figures.mean, message).toBeGreaterThan(low - four(low));
      expect(figures.mean, message).toBeLessThan(high + four(high));
      const [least] = bars.prediction as [number, number];
      expect(figures.prediction, message).toBeGreaterThan(least - four(least));
      expect(figures.predictionWidth, message).toBeLessThan(bars.predictionWidth[cell.runs]);
      expect(Math.abs(figures.error - 1), message).toBeLessThan(4 / Math.sqrt(2 * campaigns));
      expect(overBars(cell, figures).setting, message).toBeLessThanOrEqual(1);
    },
  );
});
