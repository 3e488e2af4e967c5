import { describe, expect, it } from 'vitest';
import { counterStep, meterEnergy } from '../../src/instruments/index.js';
import { propagate, SourceBook, subtract } from '../../src/uncertainty/index.js';
import { instrument } from './fixture.js';

const root3 = Math.sqrt(3);
/** 1.2 MJ in 2000 s, that is 600 W. */
const energy = {
  indicationJ: 1.2e6,
  ownErrors: [],
  meanPowerW: 600,
  durationS: 2000,
  level: 'medium',
} as const;
const of = (limits: object) => instrument('wattmeter', 3600, { limits, range: 3680 });

describe('energy by a wattmeter', () => {
  it.each([
    ['per cent of reading', { ofReading: 0.01 }, [12_000]],
    // watts over 2000 s
    ['common offset', { offset: 0.5 }, [1000]],
    ['absolute', { absolute: 1 }, [2000]],
    // 0.1 % of 3680 W over 2000 s
    ['per cent of range', { ofRange: 0.001 }, [7360]],
    // counter steps of 3600 J
    ['digits', { digits: 2 }, [7200]],
    [
      'all of them',
      { ofReading: 0.01, offset: 0.5, absolute: 1, ofRange: 0.001, digits: 2 },
      [12_000, 1000, 2000, 7360, 7200],
    ],
  ])('%s', (_name, limits, halfWidthsJ) => {
    const found = propagate(meterEnergy(new SourceBook(), of(limits), energy));
    expect(found.value).toBe(1.2e6);
    expect(found.standardUncertainty).toBeCloseTo(Math.hypot(...halfWidthsJ) / root3, 6);
  });

  it('by a certificate is corrected by the ratio at its power', () => {
    const point = (at: number, correction: number) => ({ at, correction, expandedUncertainty: 0.004 });
    const meter = instrument('wattmeter', 3600, {
      certificate: {
        number: '(invented)',
        date: '2026-03-02',
        due: '2027-03-02',
        coverageFactor: 2,
        points: [point(500, 0.01), point(900, -0.01)],
      },
    });
    // A quarter of the way from 500 to 900 W: correction 0.5 %, u = 0.2 %·√(0.75² + 0.25²).
    const found = propagate(meterEnergy(new SourceBook(), meter, energy));
    expect(found.value).toBeCloseTo(1.206e6, 6);
    expect(found.standardUncertainty).toBeCloseTo(1.2e6 * 0.002 * Math.hypot(0.75, 0.25), 6);
  });

  it('shares the gain with other levels, and watts only within one level', () => {
    const difference = (limits: object, level: string) => {
      const book = new SourceBook();
      const meter = of(limits);
      const [one, other] = [energy, { ...energy, level }].map((each) => meterEnergy(book, meter, each));
      return propagate(subtract(one!, other!)).standardUncertainty;
    };
    expect(difference({ ofReading: 0.01, offset: 0.5 }, 'full')).toBe(0);
    expect(difference({ absolute: 1 }, 'medium')).toBe(0);
    expect(difference({ absolute: 1 }, 'full')).toBeCloseTo((2000 * Math.SQRT2) / root3, 9);
  });

  it('by a counter read before and after has the triangle of two steps', () => {
    const book = new SourceBook();
    const meter = of({ ofReading: 0 });
    const step = (which: string) => counterStep(book, meter, 36_000, { run: 'r1', which });
    const ownErrors = [step('before'), step('after')];
    const found = propagate(meterEnergy(book, meter, { ...energy, ownErrors }));
    // Two rectangles of half-width a make a triangle of half-width 2a: u = 2a/√6, JCGM 100 4.3.9.
    expect(found.standardUncertainty).toBeCloseTo(36_000 / Math.sqrt(6), 6);
  });
  it('multiplies its own errors by the gain of a certificate, not by that of limits', () => {
    const book = new SourceBook();
    const meter = of({ ofReading: 0.02 });
    const own = counterStep(book, meter, 36_000, { run: 'r1', which: 'after' });
    const found = propagate(meterEnergy(book, meter, { ...energy, ownErrors: [own] }));
    expect(found.standardUncertainty).toBeCloseTo(Math.hypot(18_000, 24_000) / root3, 6);
  });
});
