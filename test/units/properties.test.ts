import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HeatledgerError } from '../../src/errors/index.js';
import {
  formatQuantity,
  fromUnit,
  quantityKinds,
  readingsOf,
  readQuantity,
  toUnit,
  unitsOf,
} from '../../src/units/index.js';

/** Any kind with any of its units. */
const kindAndUnit = fc
  .constantFrom(...quantityKinds)
  .chain((kind) => fc.record({ kind: fc.constant(kind), unit: fc.constantFrom(...unitsOf(kind)) }));

/** Numbers as they occur at a bench, with up to four decimals. */
const benchNumber = fc.integer({ min: -10_000_000, max: 10_000_000 }).map((n) => n / 10_000);

/** Pieces out of which people, and slips of the finger, make quantities. */
const pieces = fc.constantFrom(
  ...[
    '1',
    '0',
    '484',
    '1,484',
    '.',
    ',',
    ' ',
    "'",
    '+',
    '-',
    '\u2212',
    'e',
    ':',
    '/',
    '(',
    ')',
    '°',
    '%',
    '^',
  ],
  ...[
    'g',
    'kg',
    'lb',
    'oz',
    'h',
    'min',
    'C',
    'K',
    'kWh',
    'mW',
    'MW',
    'm3',
    '\u00a0',
    '\u2009',
    'µ',
    '²',
    '·',
    '\uff11',
  ],
);

const runs = (seed: number) => ({ seed, numRuns: 2000 });

describe('properties', () => {
  it('what was formatted is read back', () => {
    fc.assert(
      fc.property(kindAndUnit, benchNumber, (asked, value) => {
        // absolute zero is as near as −273.15 °C and 0 K
        const lowest = ['K', '°R'].includes(asked.unit) ? 0 : -273;
        fc.pre(asked.kind !== 'temperature' || value >= lowest);
        const si = fromUnit(value, asked.kind, asked.unit);
        const back = readQuantity(formatQuantity(si, asked.kind, asked.unit), asked);
        // Twelve digits are written: half a unit of the last is 5e-12 of the value, of 273 K where the zero is shifted.
        const scale = asked.kind === 'temperature' ? Math.max(Math.abs(si), 273.15) : Math.abs(si);
        expect(Math.abs(back.si - si)).toBeLessThanOrEqual(5.1e-12 * scale);
        expect(back.unit).toBe(asked.unit);
      }),
      runs(20261101),
    );
  });

  it('to a unit and back is the same quantity', () => {
    fc.assert(
      fc.property(kindAndUnit, benchNumber, (asked, value) => {
        const si = asked.kind === 'temperature' ? Math.abs(value) : value;
        const back = fromUnit(toUnit(si, asked.kind, asked.unit), asked.kind, asked.unit);
        // Four roundings of a double, 1.1e-16 each, of the larger of the value and 273 K.
        const scale = asked.kind === 'temperature' ? Math.max(si, 273.15) : Math.abs(si);
        expect(Math.abs(back - si)).toBeLessThanOrEqual(5e-16 * scale);
      }),
      runs(20261102),
    );
  });

  it('twice the number is twice the quantity, and a sum is the sum of its terms', () => {
    const linear = kindAndUnit.filter(({ kind, unit }) => kind !== 'temperature' && unit !== '1');
    fc.assert(
      fc.property(linear, benchNumber, benchNumber, (asked, a, b) => {
        const one = readQuantity(`${a} ${asked.unit}`, asked).si;
        const two = readQuantity(`${b}`, asked).si;
        const doubled = readQuantity(`${2 * a}`, asked).si;
        expect(Math.abs(doubled - 2 * one)).toBeLessThanOrEqual(5e-16 * Math.abs(doubled));
        const sign = b < 0 ? '-' : '+';
        const sum = readQuantity(`${a} ${sign} ${Math.abs(b)} ${asked.unit}`, asked).si;
        expect(Math.abs(sum - one - two)).toBeLessThanOrEqual(1e-14 * Math.max(Math.abs(one), Math.abs(two)));
      }),
      runs(20261103),
    );
  });

  it.each([
    ['characters of any script', fc.string({ unit: 'binary', maxLength: 40 })],
    ['pieces of quantities', fc.array(pieces, { maxLength: 12 }).map((list) => list.join(''))],
  ])('%s are read finite or refused with a sentence', (_what, texts) => {
    fc.assert(
      fc.property(texts, kindAndUnit, (text, asked) => {
        let readings: readonly { si: number; value: number }[] = [];
        try {
          readings = readingsOf(text, asked);
        } catch (error) {
          expect(error).toBeInstanceOf(HeatledgerError);
          return;
        }
        expect([1, 2]).toContain(readings.length);
        for (const { si, value } of readings)
          expect(Number.isFinite(si) && Number.isFinite(value)).toBe(true);
        if (readings.length === 2) expect(readings[0]!.si).not.toBe(readings[1]!.si);
      }),
      runs(20261104),
    );
  });
});
