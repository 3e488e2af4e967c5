import { describe, expect, it } from 'vitest';
import { calendarDay } from '../../src/logs/calendarDay.js';
import { clockCell } from '../../src/logs/clockCell.js';
import { fallsLikeNoCounter } from '../../src/logs/fallsLikeNoCounter.js';
import { monthOf } from '../../src/logs/monthOf.js';
import { serialDay, serialSeconds, serialStep } from '../../src/logs/serialDays.js';
import { describeLog } from '../../src/logs/index.js';
import { logOf } from './exportOf.js';

const day = (year: number, month: number, date: number) => Date.UTC(year, month - 1, date) / 86_400_000;

/** The months of the Unicode locale data that Node carries, full and short, alone and beside a day. */
function namesOf(locale: string, month: number): string[] {
  const at = new Date(Date.UTC(2026, month - 1, 15));
  return (['long', 'short'] as const).flatMap((style) =>
    [{ month: style } as const, { month: style, day: 'numeric' } as const].flatMap((fields) =>
      new Intl.DateTimeFormat(locale, { ...fields, timeZone: 'UTC' })
        .formatToParts(at)
        .filter(({ type }) => type === 'month')
        .map(({ value }) => value),
    ),
  );
}

describe('names of months', () => {
  const months = Array.from({ length: 12 }, (_, index) => index + 1);
  it.each('en de de-AT fr es it nl pt pl sv da nb'.split(' '))('%s', (locale) => {
    for (const month of months) {
      for (const name of namesOf(locale, month)) {
        expect(monthOf(name), name).toBe(month);
        expect(monthOf(name.toUpperCase()), name.toUpperCase()).toBe(month);
        const date = clockCell(`5. ${name} 2026 10:15`);
        expect(date && calendarDay(date.date!, 'year-first'), name).toBe(day(2026, month, 5));
      }
    }
  });
  it('cs, beside a day', () => {
    for (const month of months) {
      const at = new Date(Date.UTC(2026, month - 1, 15));
      const long = new Intl.DateTimeFormat('cs', { month: 'long', day: 'numeric', timeZone: 'UTC' });
      const name = long.formatToParts(at).find(({ type }) => type === 'month')!.value;
      expect(monthOf(name), name).toBe(month);
    }
  });
  it.each(['', 'Oc', 'Octo', 'Smarch', 'M', 'W', 'mag5'])('%j is none', (word) =>
    expect(monthOf(word)).toBeNull(),
  );
});

describe('cells with date and time', () => {
  const at = (hours: number, minutes: number, seconds: number) => hours * 3600 + minutes * 60 + seconds;
  it.each<[string, string | null, number | null, string | null]>([
    // Calendar, ordinal and week dates of ISO 8601, basic and extended.
    ['2026-10-05T10:15:00Z', '2026-10-05', at(10, 15, 0), 'Z'],
    ['20261005T101500Z', '2026-10-05', at(10, 15, 0), 'Z'],
    ['20261005T1015', '2026-10-05', at(10, 15, 0), null],
    ['20261005T10:15:00', '2026-10-05', at(10, 15, 0), null],
    ['20261005', '2026-10-05', null, null],
    ['2026-278', '2026-278', null, null],
    ['2026278T101500', '2026-278', at(10, 15, 0), null],
    ['2026-W41-1', '2026-W41-1', null, null],
    ['2026W411', '2026-W41-1', null, null],
    ['2026-W41-1T10:15:00,5', '2026-W41-1', 36900.5, null],
    // A fraction of the smallest part.
    ['2026-10-05T10:15:00.25', '2026-10-05', 36900.25, null],
    ['2026-10-05T10:15,5', '2026-10-05', at(10, 15, 30), null],
    ['20261005T1015,5', '2026-10-05', at(10, 15, 30), null],
    ['2026-10-05T10:15:00+02', '2026-10-05', at(10, 15, 0), '+02:00'],
    ['2026-10-05T10:15:00-0330', '2026-10-05', at(10, 15, 0), '-03:30'],
    ['2026-10-05T10:15:00\u221203:30', '2026-10-05', at(10, 15, 0), '-03:30'],
    ['2026-10-05 10:15:00 GMT+0200', '2026-10-05', at(10, 15, 0), '+02:00'],
    ['2026-10-05T24:00:00', '2026-10-05', 86400, null],
    ['2026-12-31T23:59:60Z', '2026-12-31', 86400, 'Z'],
    // Twelve hours.
    ['10:15 AM', null, at(10, 15, 0), null],
    ['12:00:00 a.m.', null, 0, null],
    ['12:00:00 p. m.', null, at(12, 0, 0), null],
    ['11:59:59\u202fPM', null, at(23, 59, 59), null],
    // Named months.
    ['05-Oct-2026 10:15:00', '5 Oct 2026', at(10, 15, 0), null],
    ['05OCT2026:10:15:00', '5 Oct 2026', at(10, 15, 0), null],
    ['5 Oct 26', '5 Oct 2026', null, null],
    ['5. Oktober 2026, 10:15', '5 Oct 2026', at(10, 15, 0), null],
    ['1er août 2026 à 10:15', '1 Aug 2026', at(10, 15, 0), null],
    ['5 de octubre de 2026 10:15:00 p. m.', '5 Oct 2026', at(22, 15, 0), null],
    ['Oct 5, 2026 10:15:00 AM', 'Oct 5 2026', at(10, 15, 0), null],
    ['October 5th, 2026', 'Oct 5 2026', null, null],
    ['2026-Oct-05 10:15', '2026 Oct 5', at(10, 15, 0), null],
    ['mar. 6 oct. 2026', '6 Oct 2026', null, null],
    ['Mon Oct  5 10:15:00 2026', 'Oct 5 2026', at(10, 15, 0), null],
    ['Mon, 05 Oct 2026 10:15:00 +0200', '5 Oct 2026', at(10, 15, 0), '+02:00'],
  ])('%s', (cell, date, seconds, offset) => {
    expect(clockCell(cell)).toMatchObject({ date, seconds, offset });
  });
  it.each([
    '2026-10-05T24:00:01',
    '2026-10-05T25:00:00',
    '20261005T2415',
    '2026-10-05T10:60:00',
    '2026-10-05T10:15:61',
    '2026-10-05T10:15:00+15:00',
    '2026-10-05T10:15:00+02:60',
    '2026-10-05T',
    '2026-10-05 10:15.5',
    '2026-W41',
    '2026278',
    '202610',
    '13:00:00 PM',
    '0:15 AM',
    'Oct 5 10:15:00',
    '5 Oct 10:15:00',
    '5 Smarch 2026',
    '5 Oct 2026 25:00:00',
    '5 Oct 2026 and more',
    'Oct 2026',
    '5 Oct 126',
  ])('%s is no time', (cell) => expect(clockCell(cell)).toBeUndefined());
});

describe('days of the calendar', () => {
  // ISO 8601 week dates about the turn of the year, from memory of the standard's rule that 4 January is in week 1.
  it.each<[string, number | null]>([
    ['2004-W53-6', day(2005, 1, 1)],
    ['2009-W01-1', day(2008, 12, 29)],
    ['2009-W53-7', day(2010, 1, 3)],
    ['2026-W01-1', day(2025, 12, 29)],
    ['2026-W53-7', day(2027, 1, 3)],
    ['2026-W54-1', null],
    ['2025-W53-1', null],
    ['2026-W00-1', null],
    ['2026-W41-0', null],
    ['2026-W41-8', null],
    ['2026-001', day(2026, 1, 1)],
    ['2026-365', day(2026, 12, 31)],
    ['2026-366', null],
    ['2028-366', day(2028, 12, 31)],
    ['2026-000', null],
    ['5 Oct 2026', day(2026, 10, 5)],
    ['Oct 5 2026', day(2026, 10, 5)],
    ['2026 Oct 5', day(2026, 10, 5)],
    ['29 Feb 2028', day(2028, 2, 29)],
    ['29 Feb 2026', null],
    ['2026-10-05', day(2026, 10, 5)],
    ['2026-02-30', null],
    ['1969-12-31', null],
  ])('%s', (date, expected) => expect(calendarDay(date, 'year-first')).toBe(expected));
});

describe('days of a spreadsheet', () => {
  // 1900 date system, from memory: 1 March 1900 is 61, 1 January 2000 is 36526.
  it('count from 1899-12-30', () => {
    expect(serialDay(61)).toBe(day(1900, 3, 1));
    expect(serialDay(36_526)).toBe(day(2000, 1, 1));
    expect(serialDay(36_526.99)).toBe(day(2000, 1, 1));
  });
  it('bring back each second of a day from six decimals, and each tenth from seven', () => {
    for (const [decimals, stepS] of [
      [5, 1],
      [6, 0.1],
      [7, 0.01],
    ] as const) {
      expect(serialStep(decimals).stepS).toBe(stepS);
      for (let i = 0; i < 2000; i++) {
        const seconds = Number((((i * 7919) % 86_400) + (i % 10) * stepS).toFixed(2)) % 86_400;
        const serial = Number((46_300 + seconds / 86_400).toFixed(decimals));
        expect(serialSeconds(serial, serialDay(46_300), stepS)).toBeCloseTo(seconds, 9);
      }
    }
  });
  it.each([
    [4, 8.64, 1],
    [0, 86_400, 1],
    [10, 8.64e-6, 1e-5],
    [15, 8.64e-11, 1e-5],
  ])('%d decimals show %d s', (decimals, finestS, stepS) => {
    expect(serialStep(decimals).finestS).toBeCloseTo(finestS, 15);
    expect(serialStep(decimals).stepS).toBe(stepS);
  });
  it('say how fine they are', () => {
    const text = 'Time (UTC),P [W]\n46300.42708,900\n46300.42709,901\n';
    expect(describeLog(logOf(text))[2]).toMatch(
      /days since 1899-12-30.*1900 date system.*5 decimals they show steps of 0.86 s, rounded to 1 s/,
    );
  });
  it('cross midnight and the change to summer time', () => {
    // 46110 is 29 March 2026; 00:59:50 UTC is 01:59:50 in Vienna, 10 s before the clock goes to 03:00.
    const serial = (seconds: number) => (46_110 + seconds / 86_400).toFixed(8);
    const text = `Time,P [W]\n${[7190, 10_800, 10_810].map((s) => `${serial(s)},900`).join('\n')}\n`;
    const log = logOf(text, { zone: 'Europe/Vienna' });
    expect([...log.timesS]).toEqual([0, 10, 20]);
    expect(log.startUtcMs).toBe(Date.UTC(2026, 2, 29, 0, 59, 50));
    expect(log.warnings[0]).toMatch(/moved by \+1 h at line 3/);
    const night = `Time,P [W]\n46299.99998843,900\n46300.00000000,901\n`;
    expect([...logOf(night, { zone: 'UTC' }).timesS]).toEqual([0, 1]);
  });
});

describe('energy that is no counter', () => {
  it.each<[string, number[], boolean]>([
    ['counted up', [0, 1, 2, 2, 3], false],
    ['standing still', [5, 5, 5], false],
    ['set back once', [7, 8, 9, 0, 1, 2], false],
    ['running over again and again', [7, 8, 9, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 0, 1, 2, 3, 4, 9, 0, 1], false],
    ['newest row first', [9, 8, 7], false],
    ['of each interval, hovering', [0, 2.5, 2.4, 2.5, 2.4, 0], true],
    ['of each interval, constant', [0, 2.5, 2.5, 2.5, 0], true],
    ['of each interval, with holes', [0, 2.5, Number.NaN, 2.4, 2.5, 2.4, 2.6, 0], true],
  ])('%s', (_name, values, expected) => expect(fallsLikeNoCounter(values)).toBe(expected));
});
