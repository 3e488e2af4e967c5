import { describe, expect, it } from 'vitest';
import {
  evaluateFigure,
  forecast,
  forecastWords,
  halfWidth,
  percentText,
  plainWords,
  planLike,
  rangeWords,
} from '../../src/evaluation/index.js';
import { SourceBook } from '../../src/uncertainty/index.js';
import type { Instrument } from '../../src/workbook/index.js';
import { type Bench, evaluated, heater, instruments, type Readings, shipped, workbookOf } from './dairy.js';

const assumption = { relative: 0.02, words: 'assumed' };
const wide = (of: Instrument, resolution: number, limits: object): Instrument => ({
  ...of,
  assumed: true,
  resolution,
  limits,
});
/** What somebody has who begins: a meter of 0.01 kWh steps, a kitchen scale, a probe; no lid asked, no steam weighed. */
const beginner: Bench = {
  heater: { ...heater, settings: [{ id: 'full', control: 'unknown' }] },
  meter: wide(instruments.meter, 36_000, { ofReading: 0.02 }),
  scale: wide(instruments.scale, 0.001, { absolute: 0.005 }),
  thermometer: wide(instruments.thermometer, 0.1, { absolute: 0.5 }),
};
/** 1.5 kg from 15 to 55 °C with 0.12 kWh. */
const first: Partial<Readings> = {
  emptyKg: 1.1,
  fullKg: 2.6,
  finalKg: 2.6,
  startC: 15,
  endC: 55,
  ambientC: null,
  lid: null,
  beforeKWh: 0,
  afterKWh: 0.12,
  heatingS: 480,
};

function figureOf(readings: readonly Partial<Readings>[], bench: Bench, name = 'first-heating') {
  const book = new SourceBook();
  const protocol = shipped(name);
  const runs = readings.map((each, i) => evaluated(each, { bench, protocol, book, id: `run-${i + 1}` }));
  return evaluateFigure(runs, 'water', assumption)!;
}

describe('the plain words of one first heating', () => {
  const figure = figureOf([first], beginner);
  const lines = plainWords(figure, workbookOf(beginner));

  it('are short lines that lead with the answer', () => {
    expect(lines).toHaveLength(4);
    expect(lines[0]).toMatch(/^\d\d % reached the water\. Next time: most likely \d\d to \d\d %$/);
    expect(lines[1]).toBe('(one run; run-to-run scatter assumed, not seen).');
    expect(lines[2]).toBe("Biggest doubt: the meter's 0.01 kWh steps.");
    expect(lines[3]).toMatch(/^Helps most: 3 kg of water \(about ±\d points\)\.$/);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('have the numbers of the hand calculation', () => {
    // 1.5 kg · 1.00105 · 167.2 kJ/kg over 432 kJ is 58.1 %. Relative doubts: counter ± a step at 0.12 kWh, a triangle;
    // meter 2 %; temperatures 0.5 K twice, steps of 0.1 K, stirring 0.1 and 0.3 K over 40 K; weighings 5 g twice; 0.5 % of
    // a load that switches; scatter 2 % of this run and 2 % of the next.
    const efficiency = (1.5 * 1.00105 * 167.2) / 432;
    const steps = 0.01 / 0.12 / Math.sqrt(6);
    const rectangular = Math.hypot(
      0.02,
      Math.hypot(0.5, 0.5, 0.05, 0.05, 0.1, 0.3) / 40,
      Math.hypot(5, 5) / 1500,
      0.005,
    );
    const next = Math.hypot(steps, rectangular / Math.sqrt(3), 0.02, 0.02) * 1.96 * efficiency;
    expect(figure.efficiency.value).toBeCloseTo(efficiency, 3);
    expect(halfWidth(figure) / next).toBeCloseTo(1, 2);
    // 58.1 ± 5.4: no decimals where the doubt is of points
    expect(lines[0]).toBe('58 % reached the water. Next time: most likely 53 to 64 %');
    // With twice the water the counter's part is half of that: ± 4.2 points.
    const twice = Math.hypot(steps / 2, rectangular / Math.sqrt(3), 0.02, 0.02) * 1.96 * efficiency;
    expect(twice).toBeCloseTo(0.042, 3);
    expect(lines[3]).toBe('Helps most: 3 kg of water (about ±4 points).');
  });

  it('agree with the forecast before the start', () => {
    const plan = planLike(figure, workbookOf(beginner));
    expect(forecastWords(plan)).toBe('This meter: 1.5 kg gives about ±5 points, 3 kg about ±4.');
    expect(halfWidth(forecast(plan)) / halfWidth(figure)).toBeCloseTo(1, 2);
  });
});

describe('what helps most', () => {
  const helps = (figure: ReturnType<typeof figureOf>, bench: Bench) =>
    plainWords(figure, workbookOf(bench)).find((line) => line.startsWith('Helps most')) ?? null;

  it('is more runs where scatter that nobody saw is the biggest doubt', () => {
    const figure = figureOf([{}], {}, 'water-heating');
    expect(plainWords(figure, workbookOf())[2]).toBe('Biggest doubt: scatter from run to run, assumed.');
    expect(helps(figure, {})).toBe('Helps most: more runs at this setting.');
  });
  it.each([
    [3, 'more runs at this setting'],
    [8, 'the same conditions in every run'],
  ])('where %d runs scatter is %s', (count, words) => {
    const kWh = [0.37, 0.4, 0.44];
    const scattered = Array.from({ length: count }, (_, i) => ({ beforeKWh: 0, afterKWh: kWh[i % 3]! }));
    const figure = figureOf(scattered, {}, 'water-heating');
    const lines = plainWords(figure, workbookOf());
    expect(lines[1]).toMatch(
      new RegExp(`^\\(${count} runs; on average \\d\\d(\\.\\d)? to \\d\\d(\\.\\d)? %\\)\\.$`),
    );
    expect(lines[2]).toBe('Biggest doubt: scatter from run to run.');
    expect(helps(figure, {})).toBe(`Helps most: ${words}.`);
  });
  it('is more runs where nothing that costs only time and water helps', () => {
    const sharp: Bench = {
      meter: { ...instruments.meter, limits: { ofReading: 0.001 } },
      heater: { ...heater, settings: [{ id: 'full', control: 'steady' }] },
    };
    const open = { lid: 'off', finalKg: null, fullKg: 21.871, afterKWh: 13.8, heatingS: 6000 };
    const book = new SourceBook();
    const protocol = shipped('water-heating');
    const run = evaluated(open, { bench: sharp, protocol, book });
    // Scatter known to be small, so that steam leads.
    const figure = evaluateFigure([run], 'water', { relative: 0.001, words: 'assumed' })!;
    const words = plainWords(figure, workbookOf(sharp));
    expect(words[2]).toBe('Biggest doubt: the steam that was not weighed.');
    // 20 kg are heated already, and beside the assumed 2 % of scatter nothing else narrows the next heating by a tenth.
    expect(words[3]).toBe('Helps most: more runs at this setting.');
  });
});

describe('numbers in words', () => {
  it.each([
    // as many digits as the doubt leaves
    [0.5612, 0.045, '56'],
    [0.5612, 0.0195, '56.1'],
    [0.5612, 0.0194, '56.1'],
    [0.5612, 0.002, '56.1'],
    [0.5612, 0.001, '56.12'],
  ])('%d with a half-width of %d is %s', (ratio, half, text) => expect(percentText(ratio, half)).toBe(text));
  it('a range takes the digits of its width', () => {
    expect(rangeWords([0.512, 0.604])).toBe('51 to 60 %');
    expect(rangeWords([0.5512, 0.5704])).toBe('55.1 to 57.0 %');
  });
});
