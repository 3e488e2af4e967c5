import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluateFigure } from '../../src/evaluation/index.js';
import {
  cellCount,
  type Load,
  sizeFromFigure,
  socketEnergy,
  supplyCautions,
} from '../../src/sizing/index.js';
import { SourceBook } from '../../src/uncertainty/index.js';
import { evaluated, kelvin, plain } from '../evaluation/dairy.js';
import { waterAt101325Pa } from '../reference/water.js';

const tabled = (celsius: number) => waterAt101325Pa.find((row) => row.tC === celsius)!.enthalpyIf97 * 1000;
const water: Load = { massKg: 20, startK: kelvin(10), endK: kelvin(60), specificHeat: null };
const milk: Load = { massKg: 20, startK: kelvin(5), endK: kelvin(65), specificHeat: 3900 };
const efficiency = { value: 0.7, prediction: [0.66, 0.74] } as const;
const refusal = (code: string, sentence: RegExp) =>
  expect.objectContaining({ code, message: expect.stringMatching(sentence) });

describe('energy at the socket', () => {
  it('of water by its enthalpy', () => {
    const found = socketEnergy(water, efficiency);
    const heatJ = 20 * (tabled(60) - tabled(10));
    expect(found.heatJ / heatJ).toBeCloseTo(1, 7);
    expect(found.energyJ.value / (heatJ / 0.7)).toBeCloseTo(1, 7);
    // Water as filled is known to 1 %: the ends 0.74 and 0.66 of the prediction and that in quadrature.
    const [low, high] = found.energyJ.interval;
    expect(low / found.energyJ.value).toBeCloseTo(1 - Math.hypot(1 - 0.7 / 0.74, 0.01), 9);
    expect(high / found.energyJ.value).toBeCloseTo(1 + Math.hypot(0.7 / 0.66 - 1, 0.01), 9);
    expect(found.assumption).toMatch(/± 1 % \(common practice, no source\)/);
  });
  it('of a stated heat capacity', () => {
    const found = socketEnergy(milk, efficiency);
    // 20 kg · 3900 J/(kg K) · 60 K = 4.68 MJ
    expect(found.heatJ).toBeCloseTo(4.68e6, 6);
    expect(found.energyJ.value).toBeCloseTo(4.68e6 / 0.7, 6);
    expect(found.energyJ.interval[1] / found.energyJ.value).toBeCloseTo(
      1 + Math.hypot(0.7 / 0.66 - 1, 0.05),
      9,
    );
    expect(found.assumption).toMatch(/± 5 %/);
  });
  it('always lies within an interval that is wider on either side', () => {
    const cases = fc.record({
      massKg: fc.double({ min: 0.01, max: 1000, noNaN: true }),
      startC: fc.integer({ min: 1, max: 40 }),
      riseK: fc.integer({ min: 1, max: 55 }),
      specificHeat: fc.option(fc.integer({ min: 200, max: 5000 })),
      value: fc.double({ min: 0.05, max: 1, noNaN: true }),
      below: fc.double({ min: 0.01, max: 0.9, noNaN: true }),
      above: fc.double({ min: 0.01, max: 0.9, noNaN: true }),
    });
    fc.assert(
      fc.property(cases, ({ massKg, startC, riseK, specificHeat, value, below, above }) => {
        const startK = kelvin(startC);
        const found = socketEnergy(
          { massKg, startK, endK: startK + riseK, specificHeat },
          { value, prediction: [value * (1 - below), value * (1 + above)] },
        );
        const [low, high] = found.energyJ.interval;
        expect(low).toBeLessThan(found.energyJ.value);
        expect(high).toBeGreaterThan(found.energyJ.value);
        expect(low).toBeGreaterThan(0);
        // Never less energy than the heat that the load takes at the best the heater may do.
        expect(found.energyJ.value * value).toBeCloseTo(found.heatJ, 3);
      }),
      { seed: 20_261_005, numRuns: 300 },
    );
  });

  it.each([
    ['a mass of zero', { massKg: 0 }, 'load-bad', /mass of the load must be more than zero, but it is 0 kg/],
    ['a negative mass', { massKg: -2 }, 'load-bad', /-2 kg/],
    ['a mass that is no number', { massKg: Number.NaN }, 'load-bad', /mass/],
    ['a mass without end', { massKg: Number.POSITIVE_INFINITY }, 'load-bad', /mass/],
    ['an end below the start', { endK: kelvin(5) }, 'load-bad', /rise from start to end.*-5\.00 K/],
    ['an end at the start', { endK: kelvin(10) }, 'load-bad', /0\.00 K/],
    ['a heat capacity of zero', { specificHeat: 0 }, 'load-bad', /specific heat/],
    ['boiling water', { endK: kelvin(110) }, 'water-not-liquid', /110 °C is not liquid/],
  ])('is refused for %s', (_what, change, code, sentence) =>
    expect(() => socketEnergy({ ...water, ...change }, efficiency)).toThrow(refusal(code, sentence)),
  );
  it.each([
    ['of zero', { value: 0, prediction: [0.1, 0.2] as const }, 'efficiency-bad', /0\.000/],
    ['far above one', { value: 1.2, prediction: [1, 1.3] as const }, 'efficiency-bad', /1\.200/],
    ['that may be nothing', { value: 0.3, prediction: [-0.1, 0.7] as const }, 'prediction-open', /-0\.100/],
  ])('is refused for an efficiency %s', (_what, given, code, sentence) =>
    expect(() => socketEnergy(water, given)).toThrow(refusal(code, sentence)),
  );
});

describe('the count of cells', () => {
  const supply = { usableJ: 36_000, converterEfficiency: 0.9, reserve: 0.25 };
  it('is that of the hand calculation', () => {
    // 3.6 MJ/0.9 = 4 MJ, with a quarter more 5 MJ, over 36 kJ: 138.9 cells; 4.05 MJ gives 156.25.
    const found = cellCount({ value: 3.6e6, interval: [3.2e6, 4.05e6] }, supply);
    expect(found).toEqual({ recommended: 157, middle: 139, fromCellsJ: 4.05e6 / 0.9 });
  });
  it.each([
    // whole but for the binary residue of 1.1, 0.9 and 0.7
    [100, 1, 0.1, 110],
    [3, 1, 0.1, 4],
    [90, 0.9, 0, 100],
    [70, 0.7, 0.1, 110],
  ])('of %d cells at converter %d and reserve %d is %d', (cells, converterEfficiency, reserve, count) => {
    const energyJ = { value: cells * 36_000, interval: [cells * 30_000, cells * 36_000] as const };
    expect(cellCount(energyJ, { usableJ: 36_000, converterEfficiency, reserve }).recommended).toBe(count);
  });
  it('never falls with more reserve, more energy, a worse converter or smaller cells', () => {
    const positive = (max: number) => fc.double({ min: 0.01, max, noNaN: true });
    const cases = fc.record({
      energy: positive(1e8),
      usableJ: fc.integer({ min: 1000, max: 1_000_000 }),
      converter: positive(1),
      reserve: positive(2),
      more: positive(1),
    });
    fc.assert(
      fc.property(cases, ({ energy, usableJ, converter, reserve, more }) => {
        const of = (joules: number, cell: number, converterEfficiency: number, part: number) =>
          cellCount(
            { value: joules, interval: [joules / 2, joules] },
            { usableJ: cell, converterEfficiency, reserve: part },
          ).recommended;
        const base = of(energy, usableJ, converter, reserve);
        expect(of(energy, usableJ, converter, reserve + more)).toBeGreaterThanOrEqual(base);
        expect(of(energy * (1 + more), usableJ, converter, reserve)).toBeGreaterThanOrEqual(base);
        expect(of(energy, usableJ, converter / (1 + more), reserve)).toBeGreaterThanOrEqual(base);
        expect(of(energy, usableJ / (1 + more), converter, reserve)).toBeGreaterThanOrEqual(base);
        // Enough, and not one too many.
        const needJ = (energy / converter) * (1 + reserve);
        expect(base * usableJ).toBeGreaterThanOrEqual(needJ * (1 - 1e-9));
        expect((base - 1) * usableJ).toBeLessThan(needJ);
      }),
      { seed: 20_261_005, numRuns: 500 },
    );
  });
  it.each([
    ['a cell without energy', { usableJ: 0 }, /usable energy of a cell can't be 0 J/],
    ['a cell of no number', { usableJ: Number.NaN }, /NaN J/],
    ['a converter above 1', { converterEfficiency: 1.1 }, /converter efficiency \(0 to 1\) can't be 1\.1/],
    ['a converter of zero', { converterEfficiency: 0 }, /can't be 0/],
    ['a negative reserve', { reserve: -0.1 }, /reserve can't be -0\.1/],
  ])('is refused for %s', (_what, change, sentence) =>
    expect(() => cellCount({ value: 1e6, interval: [9e5, 1.1e6] }, { ...supply, ...change })).toThrow(
      refusal('supply-bad', sentence),
    ),
  );
});

describe('a supply sized from a figure', () => {
  /** Runs of 5.9 to 6.1 kg from 12 to 51 °C. */
  const figureOf = (runs: number, definition: 'water' | 'water+vapour' = 'water') => {
    const book = new SourceBook();
    const evaluations = [5.9, 6, 6.1].slice(0, runs).map((waterKg, i) =>
      evaluated(
        {
          fullKg: plain.emptyKg + waterKg,
          finalKg: plain.emptyKg + waterKg - 0.01,
          startC: 12,
          endC: 51,
          afterKWh: plain.beforeKWh + waterKg * (0.066 + i * 0.0002),
        },
        { book, id: `run-${i}` },
      ),
    );
    const words = 'assumed 2 % of the value (common practice, no source)';
    return evaluateFigure(evaluations, definition, { relative: 0.02, words })!;
  };
  const figure = figureOf(3);
  const load = { massKg: 6, startK: kelvin(12), endK: kelvin(51), specificHeat: null };

  it('has energy, interval and cells of the parts', () => {
    const supply = { usableJ: 36_000, converterEfficiency: 0.9, reserve: 0.2 };
    const found = sizeFromFigure(figure, load, supply);
    const energy = socketEnergy(load, {
      value: figure.efficiency.value,
      prediction: figure.prediction.interval,
    });
    expect(found).toMatchObject({ ...energy, cells: cellCount(energy.energyJ, supply) });
    expect(found.cautions).toBe(supplyCautions);
    expect(supplyCautions.join(' ')).toMatch(/fuse.*short circuit.*food-safety.*Local codes/s);
  });
  it('counts what "water" counts, whatever the headline: steam is no load', () => {
    const other = figureOf(3, 'water+vapour');
    expect(other.efficiency.value).toBeGreaterThan(figure.efficiency.value);
    expect(sizeFromFigure(other, load, null).energyJ.value).toBeCloseTo(
      sizeFromFigure(figure, load, null).energyJ.value,
      3,
    );
  });
  it('has no cells where none is stated', () => expect(sizeFromFigure(figure, load, null).cells).toBeNull());
  it('warns of nothing but the missing signature within the tested range', () =>
    expect(sizeFromFigure(figure, load, null).warnings).toEqual(['The figure is not signed.']));
  it.each([
    ['more mass', { massKg: 7.7 }, /tested with 5\.9 kg to 6\.1 kg, the job has 7\.7 kg: outside the tested/],
    ['less mass', { massKg: 4.4 }, /the job has 4\.4 kg/],
    ['a hotter end', { endK: kelvin(57) }, /tested from 12 °C to 51 °C, the job runs from 12 °C to 57 °C/],
    ['a colder start', { startK: kelvin(6) }, /from 6 °C to 51 °C/],
    ['a smaller rise', { startK: kelvin(25) }, /with a rise of 39 K or more, the job has 26 K/],
  ])('warns of %s than tested', (_what, change, sentence) =>
    expect(sizeFromFigure(figure, { ...load, ...change }, null).warnings.join('\n')).toMatch(sentence),
  );
  it.each([
    { massKg: 7.6 },
    { massKg: 4.5 },
    { endK: kelvin(55.9) },
    { startK: kelvin(7.1) },
    { startK: kelvin(21.7) },
  ])('does not warn of %j, a little outside', (change) =>
    expect(sizeFromFigure(figure, { ...load, ...change }, null).warnings).toHaveLength(1),
  );
  it('says that a scatter nobody saw states no chance', () =>
    expect(sizeFromFigure(figureOf(1), load, null).warnings[1]).toMatch(
      /rests on one run;.*assumed 2 %.*No chance of running short can be stated/,
    ));
});
