import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { integrateEnergy, type Log, logSummary } from '../../src/logs/index.js';
import { logOf } from './exportOf.js';

const seed = 20_261_104;
const runs = { seed, numRuns: 150 };
// On failure fast-check prints the seed and the path to the smallest case.
const holds = <T>(cases: fc.Arbitrary<T>, property: (made: T) => void) =>
  fc.assert(fc.property(cases, property), runs);

/** A made-up log of the vat warmer in whole tenths of watts, hundredths of watt-hours and tenths of degrees. */
interface Made {
  readonly intervalS: number;
  readonly rows: readonly {
    readonly deciwatts: number;
    readonly centiwattHours: number;
    readonly decidegrees: number;
  }[];
}

const made: fc.Arbitrary<Made> = fc
  .record({
    intervalS: fc.constantFrom(1, 2, 5, 10, 30),
    onFrom: fc.integer({ min: 1, max: 10 }),
    onFor: fc.integer({ min: 3, max: 40 }),
    offFor: fc.integer({ min: 1, max: 10 }),
    wander: fc.array(fc.integer({ min: -40, max: 40 }), { minLength: 60, maxLength: 60 }),
  })
  .map(({ intervalS, onFrom, onFor, offFor, wander }) => {
    let [deciwattSeconds, decidegrees] = [0, 85];
    const rows = wander.slice(0, onFrom + onFor + offFor).map((each, i) => {
      const on = i >= onFrom && i < onFrom + onFor;
      const deciwatts = on ? 9000 + each : 12;
      deciwattSeconds += deciwatts * intervalS;
      decidegrees += on ? 2 : 0;
      return { deciwatts, centiwattHours: Math.floor(deciwattSeconds / 360), decidegrees };
    });
    return { intervalS, rows };
  });

/** A whole number of 10^-places, written out without rounding. */
function decimal(whole: number, places: number): string {
  if (places <= 0) return String(whole) + '0'.repeat(-places);
  const digits = String(whole).padStart(places + 1, '0');
  return `${digits.slice(0, -places)}.${digits.slice(-places)}`;
}

const header = ['t [s]', 'P [W]', 'E [Wh]', 'T1 [°C]', 'note'];
const table = ({ intervalS, rows }: Made): string[][] =>
  rows.map(({ deciwatts, centiwattHours, decidegrees }, i) => [
    String(intervalS * i),
    decimal(deciwatts, 1),
    decimal(centiwattHours, 2),
    decimal(decidegrees, 1),
    i % 7 === 3 ? 'lid on' : '',
  ]);
const text = (cells: readonly (readonly string[])[], end = '\n') =>
  cells.map((row) => row.join(',') + end).join('');

const arrays = ['timesS', 'powerW', 'energyJ', 'temperatureK'] as const;
/** The same numbers to the last bit, and the same that is made of them. */
function expectSame(got: Log, wanted: Log): void {
  for (const key of arrays) expect(got[key], key).toEqual(wanted[key]);
  expect([got.startUtcMs, got.resolution]).toEqual([wanted.startUtcMs, wanted.resolution]);
  const { columns: _columns, warnings: _warnings, ...numbers } = logSummary(wanted);
  expect(logSummary(got)).toMatchObject(numbers);
}
/** Relative difference of two numbers. */
const apart = (a: number, b: number) =>
  Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b), Number.MIN_VALUE);

describe(`properties of the reader, seed ${seed}`, () => {
  it('a power in kilowatts or milliwatts is the same energy', () =>
    holds(made, (each) => {
      const energyOf = (unit: string, places: number) => {
        const rows = each.rows.map(({ deciwatts }, i) => [
          String(each.intervalS * i),
          decimal(deciwatts, places),
        ]);
        return logSummary(logOf(text([['t [s]', `P [${unit}]`], ...rows]))).energyWh!;
      };
      // Each number is rounded once more, by 1e-16 of its size.
      expect(apart(energyOf('kW', 4), energyOf('W', 1))).toBeLessThan(1e-12);
      expect(apart(energyOf('mW', -2), energyOf('W', 1))).toBeLessThan(1e-12);
    }));

  it('clock times may begin at any moment', () =>
    holds(fc.tuple(made, fc.integer({ min: 1e9, max: 2e9 })), ([each, startS]) => {
      const clock = (form: (s: number) => string) =>
        logOf(
          text([
            ['time', ...header.slice(1)],
            ...table(each).map(([t, ...rest]) => [form(Number(t)), ...rest]),
          ]),
        );
      const elapsed = logOf(text([header, ...table(each)]));
      const iso = clock((s) => new Date(1000 * (startS + s)).toISOString());
      const epoch = clock((s) => String(1000 * (startS + s)));
      expect([iso.startUtcMs, epoch.startUtcMs]).toEqual([1000 * startS, 1000 * startS]);
      for (const log of [iso, epoch]) expectSame({ ...log, startUtcMs: null }, elapsed);
    }));

  it('line ends, blank lines, a byte-order mark and quotes change nothing', () =>
    holds(
      fc.record({
        each: made,
        end: fc.constantFrom('\n', '\r\n', '\r'),
        mark: fc.boolean(),
        quoted: fc.boolean(),
        blank: fc.array(fc.nat({ max: 40 }), { maxLength: 4 }),
        ended: fc.boolean(),
      }),
      ({ each, end, mark, quoted, blank, ended }) => {
        const cells = [header, ...table(each)];
        const shown = quoted ? cells.map((row) => row.map((cell) => `"${cell}"`)) : cells;
        const rows = shown.map((row, i) => row.join(',') + end + (blank.includes(i) ? end : ''));
        const whole = (mark ? '\ufeff' : '') + rows.join('');
        expectSame(logOf(ended ? whole : whole.trimEnd()), logOf(text(cells)));
      },
    ));

  it('the order of the columns does not matter', () =>
    holds(fc.tuple(made, fc.shuffledSubarray([0, 1, 2, 3, 4], { minLength: 5 })), ([each, order]) => {
      const cells = [header, ...table(each)];
      const permuted = cells.map((row) => order.map((column) => row[column]!));
      expectSame(logOf(text(permuted)), logOf(text(cells)));
    }));

  it('the newest row may come first', () =>
    holds(made, (each) => {
      const rows = table(each);
      const reversed = logOf(text([header, ...rows.toReversed()]));
      expectSame(reversed, logOf(text([header, ...rows])));
      expect(reversed.warnings).toEqual(['The newest row comes first; the rows were turned round.']);
    }));

  it('the energy of two parts is that of the whole', () =>
    holds(
      fc.tuple(made, fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 3, maxLength: 3 })),
      ([each, shares]) => {
        const log = logOf(text([header, ...table(each)]));
        const [a, b, c] = shares
          .map((share) => log.timesS[Math.round(share * (log.rows - 1))]!)
          .sort((x, y) => x - y);
        if (!(a! < b! && b! < c!)) return;
        const energy = (fromS: number, toS: number) => integrateEnergy(log, { fromS, toS }).energyJ;
        expect(apart(energy(a!, b!) + energy(b!, c!), energy(a!, c!))).toBeLessThan(1e-12);
        // And the whole is the sum of trapezoids, written out.
        const sum = [...log.timesS.keys()]
          .slice(1)
          .filter((i) => log.timesS[i - 1]! >= a! && log.timesS[i]! <= c!)
          .reduce((joules, i) => joules + (each.intervalS * (log.powerW![i]! + log.powerW![i - 1]!)) / 2, 0);
        expect(apart(sum, energy(a!, c!))).toBeLessThan(1e-12);
      },
    ));
});
