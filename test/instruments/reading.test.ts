import { describe, expect, it } from 'vitest';
import { readingQuantity } from '../../src/instruments/index.js';
import { propagate, SourceBook, subtract } from '../../src/uncertainty/index.js';
import { instrument, logger, reading } from './fixture.js';

const root3 = Math.sqrt(3);
const context = { run: 'r1', level: 'start' };
/** Half a step of 0.1 K, rectangular. */
const stepU = 0.05 / root3;
const kelvin = (celsius: number) => celsius + 273.15;

function read(celsius: number, seq = 1, book = new SourceBook()) {
  return readingQuantity(book, logger, reading(kelvin(celsius), seq), context);
}

describe('a certificate: correction at points, U with k = 2', () => {
  it.each([
    // reading °C, correction K, calibration u K: the hand calculation beside each
    ['at the first point', 0, 0.04, 0.05],
    ['at a point', 25, 0.02, 0.05],
    ['at the last point', 50, -0.03, 0.08],
    // a fifth of the way: 0.8·0.02 + 0.2·(−0.03); √((0.8·0.05)² + (0.2·0.08)²)
    ['between two points', 30, 0.01, Math.sqrt(0.04 ** 2 + 0.016 ** 2)],
    // half-way: (0.02 − 0.03)/2; √(0.05² + 0.08²)/2
    ['half-way', 37.5, -0.005, Math.sqrt(0.05 ** 2 + 0.08 ** 2) / 2],
    // the last point holds, and one more rectangular error of its U: √(0.08² + 0.16²/3)
    ['above the points', 60, -0.03, Math.sqrt(0.08 ** 2 + 0.16 ** 2 / 3)],
    ['below the points', -5, 0.04, Math.sqrt(0.05 ** 2 + 0.1 ** 2 / 3)],
  ])('%s', (_where, celsius, correction, calibrationU) => {
    const found = propagate(read(celsius));
    expect(found.value).toBeCloseTo(kelvin(celsius) + correction, 10);
    expect(found.standardUncertainty).toBeCloseTo(Math.hypot(calibrationU, stepU), 12);
  });

  it('is mostly shared by two readings near each other', () => {
    const book = new SourceBook();
    const found = propagate(subtract(read(35, 2, book), read(30, 1, book)));
    // Weights 0.8, 0.2 and 0.6, 0.4 of the same two errors: their difference −0.2, 0.2. Steps are fresh in each.
    const calibration = Math.hypot(0.2 * 0.05, 0.2 * 0.08);
    expect(found.value).toBeCloseTo(5 + (0.6 * 0.02 - 0.4 * 0.03) - 0.01, 10);
    expect(found.standardUncertainty).toBeCloseTo(Math.hypot(calibration, stepU, stepU), 12);
  });
  it('is not shared by readings at different points', () => {
    const book = new SourceBook();
    const found = propagate(subtract(read(50, 2, book), read(0, 1, book)));
    expect(found.standardUncertainty).toBeCloseTo(Math.hypot(0.05, 0.08, stepU, stepU), 12);
  });
  it('is the same error in another run', () => {
    const book = new SourceBook();
    const other = readingQuantity(book, logger, reading(kelvin(25), 9), { run: 'r2', level: 'end' });
    const found = propagate(subtract(other, read(25, 1, book)));
    expect(found.standardUncertainty).toBeCloseTo(Math.hypot(stepU, stepU), 12);
  });
  it('of one point holds everywhere, with a further error away from it', () => {
    const one = instrument('barometer', 10, {
      certificate: {
        number: '(invented)',
        date: '2026-03-02',
        due: '2027-03-02',
        coverageFactor: 2,
        points: [{ at: 90_000, correction: 30, expandedUncertainty: 40 }],
      },
    });
    const at = (pa: number) => propagate(readingQuantity(new SourceBook(), one, reading(pa), context));
    expect(at(90_000).value).toBe(90_030);
    expect(at(90_000).standardUncertainty).toBeCloseTo(Math.hypot(20, 5 / root3), 10);
    expect(at(89_000).standardUncertainty).toBeCloseTo(Math.hypot(20, 40 / root3, 5 / root3), 10);
  });
});

describe('data-sheet limits, each rectangular', () => {
  it.each([
    ['absolute', { absolute: 0.5 }, 0.5],
    ['common offset', { offset: 0.3 }, 0.3],
    // 60 °C, not 333 K
    ['per cent of reading', { ofReading: 0.005 }, 0.3],
    // of 200 °C, not of 473 K
    ['per cent of range', { ofRange: 0.002 }, 0.4],
    ['digits', { digits: 2 }, 0.2],
    ['all of them', { absolute: 0.5, offset: 0.3, ofReading: 0.005, ofRange: 0.002, digits: 2 }, 0],
  ])('%s of a thermometer at 60 °C', (name, limits, halfWidth) => {
    const probe = instrument('thermometer', 0.1, { limits, range: kelvin(200) });
    const found = propagate(readingQuantity(new SourceBook(), probe, reading(kelvin(60)), context));
    const widths = name === 'all of them' ? [0.5, 0.3, 0.3, 0.4, 0.2] : [halfWidth];
    expect(found.value).toBe(kelvin(60));
    expect(found.standardUncertainty).toBeCloseTo(Math.hypot(...widths.map((w) => w / root3), stepU), 12);
    expect(found.budget.every((row) => row.source.instrument === 'thermometer-1')).toBe(true);
  });

  const twice = (limits: object, levels: [string, string], runs: [string, string] = ['r1', 'r1']) => {
    const probe = instrument('thermometer', 0.1, { limits, range: kelvin(200) });
    const book = new SourceBook();
    const [low, high] = [20, 60].map((celsius, i) =>
      readingQuantity(book, probe, reading(kelvin(celsius), i + 1), { run: runs[i]!, level: levels[i]! }),
    );
    return propagate(subtract(high!, low!)).standardUncertainty;
  };
  const steps = Math.hypot(stepU, stepU);
  it('a common offset cancels between two levels', () =>
    expect(twice({ offset: 0.5 }, ['start', 'end'])).toBeCloseTo(steps, 12));
  it('an absolute limit does not: nothing is known of how two levels go together', () =>
    expect(twice({ absolute: 0.5 }, ['start', 'end'])).toBeCloseTo(
      Math.hypot(0.5 / root3, 0.5 / root3, steps),
      12,
    ));
  it('an absolute limit is one error at one level, in every run', () =>
    expect(twice({ absolute: 0.5 }, ['end', 'end'], ['r1', 'r2'])).toBeCloseTo(steps, 12));
  it('a limit of reading acts on the difference', () =>
    expect(twice({ ofReading: 0.01 }, ['start', 'end'])).toBeCloseTo(
      Math.hypot((0.01 * 40) / root3, steps),
      12,
    ));
  it('assumed limits are marked in every source', () => {
    const probe = instrument('thermometer', 0.1, { limits: { absolute: 0.5 }, assumed: true });
    const { budget } = propagate(readingQuantity(new SourceBook(), probe, reading(300), context));
    expect(budget.map((row) => row.source.assumed)).toEqual([true, true]);
  });
});

describe('a scale', () => {
  const scale = instrument('scale', 0.001, { limits: { absolute: 0.005 } });
  /** Two weighings of one load may differ by half a step or a fifth of the limit, whichever is more. */
  const repeatU = 0.001 / root3;
  const weighed = (typed: string, kg: number, of = scale) =>
    propagate(readingQuantity(new SourceBook(), of, reading(kg, 1, typed), context));

  it('has its limit, its steps and its repeat', () =>
    expect(weighed('4202 g', 4.202).standardUncertainty).toBeCloseTo(
      Math.hypot(0.005 / root3, 0.0005 / root3, repeatU),
      12,
    ));
  it.each([
    ['2104+2098 g', 2, 2],
    ['2104 g + 2098 g', 2, 2],
    ['1401+1401+1400 g', 3, 3],
    ['4.202e+0 kg', 1, 1],
    ['+4202 g', 1, 1],
    ['9 lb 4.22 oz', 1, 1],
    // a tare taken off: two readings, the limit once
    ['6306-2104 g', 1, 2],
    ['6306 − 2104 g', 1, 2],
  ])('%s counts its limit %d times and is read %d times', (typed, added, all) => {
    const found = weighed(typed, 4.202);
    expect(found.value).toBe(4.202);
    expect(found.standardUncertainty).toBeCloseTo(
      Math.hypot((added * 0.005) / root3, Math.sqrt(all) * Math.hypot(0.0005 / root3, repeatU)),
      12,
    );
  });
  it('a per cent of reading is that of the sum, however many parts it has', () => {
    const gain = instrument('scale', 0.001, { limits: { ofReading: 0.001 } });
    const fresh = Math.hypot(0.0005 / root3, 0.0005 / root3);
    expect(weighed('4202 g', 4.202, gain).standardUncertainty).toBeCloseTo(
      Math.hypot(0.004_202 / root3, fresh),
      12,
    );
    expect(weighed('2104+2098 g', 4.202, gain).standardUncertainty).toBeCloseTo(
      Math.hypot(0.004_202 / root3, Math.sqrt(2) * fresh),
      12,
    );
  });
  it('a certificate is asked where the scale was read, once for each part', () => {
    const point = (at: number, correction: number) => ({ at, correction, expandedUncertainty: 0.002 });
    const certified = instrument('scale', 0.001, {
      certificate: {
        number: '(invented)',
        date: '2026-03-02',
        due: '2027-03-02',
        coverageFactor: 2,
        points: [point(0, 0), point(2, 0.001), point(3, 0.003)],
      },
    });
    // Parts of about 2.1 kg: 0.9·0.001 + 0.1·0.003 = 0.0012 kg each, and 2·√(0.9² + 0.1²)·0.001 kg of shared error.
    const found = weighed('2104+2096 g', 4.2, certified);
    const fresh = Math.sqrt(2) * Math.hypot(0.0005 / root3, 0.0005 / root3);
    expect(found.value).toBeCloseTo(4.2024, 12);
    expect(found.standardUncertainty).toBeCloseTo(Math.hypot(2 * 0.001 * Math.hypot(0.9, 0.1), fresh), 12);
  });
});
