import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import {
  assumedInstruments,
  describeBasis,
  describeLimits,
  describeResolution,
  dueDate,
} from '../../src/instruments/index.js';
import { createWorkbook, type RawRecord, saveInstrument } from '../../src/workbook/index.js';
import { instrument, logger } from './fixture.js';

describe('a due date in words', () => {
  const meter = (due: string) => instrument('wattmeter', 3600, { limits: { ofReading: 0.01 }, due });
  it.each([
    ['2026-10-05', '2026-10-05T00:00:00Z', 0, 'due today'],
    ['2026-10-05', '2026-10-05T23:59:59Z', 0, 'due today'],
    ['2026-10-06', '2026-10-05T23:59:59Z', 1, 'due in 1 day'],
    ['2026-10-17', '2026-10-05T12:00:00Z', 12, 'due in 12 days'],
    ['2026-10-04', '2026-10-05T00:00:01Z', -1, '1 day past due'],
    ['2026-10-02', '2026-10-05T12:00:00Z', -3, '3 days past due'],
    // over the leap day of 2028, and over a year's end
    ['2028-03-01', '2028-02-28T12:00:00Z', 2, 'due in 2 days'],
    ['2027-03-01', '2027-02-28T12:00:00Z', 1, 'due in 1 day'],
    ['2028-02-29', '2028-02-29T12:00:00Z', 0, 'due today'],
    ['2028-02-29', '2027-02-28T12:00:00Z', 366, 'due in 366 days'],
    ['2026-12-31', '2027-01-01T00:00:00Z', -1, '1 day past due'],
  ])('%s seen from %s', (due, day, days, words) =>
    expect(dueDate(meter(due), new Date(day))).toEqual({ due, days, words }),
  );
  it('is that of the certificate where there is one', () =>
    expect(dueDate({ ...logger, due: '2030-01-01' }, new Date('2027-03-01T12:00:00Z'))).toEqual({
      due: '2027-03-02',
      days: 1,
      words: 'due in 1 day',
    }));
  it('is unknown where nothing says it', () => {
    const { due: _none, ...without } = meter('2026-01-01');
    expect(dueDate(without, new Date())).toBeNull();
  });
});

describe('an instrument in words', () => {
  const scale = instrument('scale', 0.001, { limits: { ofReading: 0.01, absolute: 0.002 } });
  it('names its limits', () => {
    expect(describeLimits(scale)).toBe('± 1 % of reading ± 2 g');
    expect(
      describeLimits(
        instrument('wattmeter', 3600, { limits: { ofRange: 0.005, digits: 3, offset: 1.5 }, range: 3680 }),
      ),
    ).toBe('± 0.5 % of range ± 3 digits ± 1.5 W, the same at every reading');
    expect(describeLimits(logger)).toBe('no limits stated');
  });
  it('says where they are known from', () => {
    expect(describeBasis(scale)).toBe('data sheet ± 1 % of reading ± 2 g');
    expect(describeBasis({ ...scale, assumed: true })).toMatch(/^assumed .*\(common practice, no source\)$/);
    expect(describeBasis(logger)).toBe('certificate (invented) of 2026-03-02, 3 points');
  });
  it('names its steps in the usual unit', () => {
    expect(describeResolution(scale)).toBe('1 g steps');
    expect(describeResolution(instrument('wattmeter', 36_000, {}))).toBe('0.01 kWh steps');
    expect(describeResolution(logger)).toBe('0.1 K steps');
    expect(describeResolution(instrument('barometer', 10, {}))).toBe('0.1 hPa steps');
  });
});

describe('the assumed instruments', () => {
  const dir = mkdtempSync(join(tmpdir(), 'heatledger-instruments-'));
  afterAll(() => rmSync(dir, { recursive: true, force: true }));
  it('are valid records with wide limits, all marked as assumed', () => {
    const book = join(dir, 'book');
    createWorkbook(book, { schema: 1, name: 'bench', zone: 'UTC', hands: [{ id: 'me', name: 'me' }] });
    const raw = assumedInstruments({ energy: '0.1 kWh' });
    const saved = Object.values(raw).map((each) => saveInstrument(book, each as RawRecord));
    const found = Object.fromEntries(saved.map((each) => [each.kind, each]));
    expect(saved.every((each) => each.assumed)).toBe(true);
    // ± 2 %, ± 5 g, ± 0.5 °C: common practice, no source
    expect(found.wattmeter).toMatchObject({ limits: { ofReading: 0.02 }, resolution: 360_000 });
    expect(found.scale).toMatchObject({ limits: { absolute: 0.005 }, resolution: 0.001 });
    expect(found.thermometer).toMatchObject({ limits: { absolute: 0.5 }, resolution: 0.1 });
  });
});
