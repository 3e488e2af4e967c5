import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundToUncertainty } from '../../src/uncertainty/index.js';

describe('a result rounded to its uncertainty: two digits, JCGM 100 7.2.6', () => {
  it.each([
    // value, uncertainty, shown value, shown uncertainty, decimals
    [0.56321, 0.01249, '0.563', '0.012', 3],
    [1234.5, 0.0997, '1234.50', '0.10', 2],
    [123.456, 9.96, '123', '10', 0],
    [123.456, 9.94, '123.5', '9.9', 1],
    [123_456, 3210, '123500', '3200', -2],
    [123_456, 99_600, '120000', '100000', -4],
    [45, 3210, '0', '3200', -2],
    [-0.004, 0.26, '0.00', '0.26', 2],
    [-0.0003, 0.12, '0.00', '0.12', 2],
    [-4, 150, '0', '150', -1],
    [-0, 0.5, '0.00', '0.50', 2],
    [-12.345, 0.67, '-12.35', '0.67', 2],
    [1e-9, 2.34e-10, '0.00000000100', '0.00000000023', 11],
    // The example of JCGM 100 7.2.6 and 7.2.2: m_S = 100,02147 g with u_c = 0,35 mg. From memory.
    [100.021_47, 0.000_35, '100.02147', '0.00035', 5],
    // and 10,05762 Ω with 27 mΩ, which is to be rounded to 10,058 Ω. From memory.
    [10.057_62, 0.027, '10.058', '0.027', 3],
  ])('%d ± %d is %s ± %s', (value, uncertainty, shown, shownUncertainty, decimals) => {
    expect(roundToUncertainty(value, uncertainty)).toEqual({
      value: shown,
      uncertainty: shownUncertainty,
      decimals,
    });
  });

  it.each([
    [0.123_456_78, '0.123457', 6],
    [101_325, '101325', 0],
    [-0, '0', 0],
    [2.5, '2.5', 1],
  ])('%d without doubt shows six digits', (value, shown, decimals) =>
    expect(roundToUncertainty(value, 0)).toEqual({ value: shown, uncertainty: '0', decimals }),
  );

  it.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('refuses an uncertainty of %d', (uncertainty) =>
    expect(() => roundToUncertainty(1, uncertainty)).toThrow(
      expect.objectContaining({ code: 'uncertainty-unknown' }),
    ),
  );
  it.each([Number.NaN, Number.NEGATIVE_INFINITY])('refuses a value of %d', (value) =>
    expect(() => roundToUncertainty(value, 1)).toThrow(expect.objectContaining({ code: 'value-not-finite' })),
  );

  const magnitude = fc
    .record({
      digits: fc.double({ min: 1, max: 10, noNaN: true }),
      exponent: fc.integer({ min: -6, max: 6 }),
    })
    .map(({ digits, exponent }) => digits * 10 ** exponent);

  it('is off by half a unit of the last digit shown at most, and two digits carry the uncertainty', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), magnitude, (value, uncertainty) => {
        const shown = roundToUncertainty(value, uncertainty);
        const unit = 10 ** -shown.decimals;
        const slack = 1e-9 * Math.max(Math.abs(value), uncertainty);
        expect(Math.abs(Number(shown.value) - value)).toBeLessThanOrEqual(unit / 2 + slack);
        expect(Math.abs(Number(shown.uncertainty) - uncertainty)).toBeLessThanOrEqual(unit / 2 + slack);
        const digits = Math.round(Number(shown.uncertainty) / unit);
        expect(digits).toBeGreaterThanOrEqual(10);
        expect(digits).toBeLessThanOrEqual(99);
        expect(shown.value).not.toMatch(/^-0*(\.0*)?$/);
      }),
      { seed: 20_261_005, numRuns: 1000 },
    );
  });
  it('is the same for a value and its negative but for the sign', () => {
    const halves = fc.integer({ min: 0, max: 2000 }).map((n) => n * 50);
    fc.assert(
      fc.property(halves, fc.constantFrom(0.3, 1.2, 12, 120, 1200), (value, uncertainty) => {
        const [above, below] = [value, -value].map((each) => roundToUncertainty(each, uncertainty).value);
        expect(Number(below)).toBe(-Number(above) + 0);
      }),
      { seed: 20_261_005, numRuns: 1000 },
    );
  });
});
