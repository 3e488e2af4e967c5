import { describe, expect, it } from 'vitest';
import { logOf } from './exportOf.js';
import { errorOf } from './exportOf.js';

/**
 * Central European Time by Directive 2000/84/EC: summer time from the last Sunday in March, 01:00 UTC (29 March 2026),
 * to the last Sunday in October, 01:00 UTC (25 October 2026).
 */
const zone = 'Europe/Vienna';
const text = (...times: string[]) => `Time,P [W]\n${times.map((time) => `${time},900`).join('\n')}\n`;

describe('clocks that are changed', () => {
  it('counts no jump when summer time begins', () => {
    const log = logOf(text('2026-03-29 01:59:59', '2026-03-29 03:00:00'), { zone });
    expect([...log.timesS]).toEqual([0, 1]);
    expect(log.startUtcMs).toBe(Date.UTC(2026, 2, 29, 0, 59, 59));
    expect(log.warnings[0]).toMatch(/moved by \+1 h at line 3/);
  });
  it('refuses a time within the hour left out', () => {
    const error = errorOf(() => logOf(text('2026-03-29 01:59:00', '2026-03-29 02:30:00'), { zone }));
    expect(error.code).toBe('log-time-not-real');
    expect(error.place).toEqual({ file: 'test.csv', line: 3 });
  });
  it('tells the repeated hour apart by the order of the rows', () => {
    const log = logOf(
      text(
        '2026-10-25 01:30:00',
        '2026-10-25 02:30:00',
        '2026-10-25 02:00:00',
        '2026-10-25 02:30:00',
        '2026-10-25 03:00:00',
      ),
      { zone },
    );
    expect([...log.timesS]).toEqual([0, 3600, 5400, 7200, 9000]);
    expect(log.warnings[0]).toMatch(/moved by -1 h at line 4/);
  });
  it('refuses a log that begins within the repeated hour, unless the offset is stated', () => {
    const times = text('2026-10-25 02:30:00', '2026-10-25 02:30:01');
    expect(errorOf(() => logOf(times, { zone })).code).toBe('log-time-twice');
    expect(logOf(times, { zone: '+01:00' }).startUtcMs).toBe(Date.UTC(2026, 9, 25, 1, 30));
  });
  it('follows offsets in the file row by row', () => {
    const log = logOf(text('2026-10-25T02:59:59+02:00', '2026-10-25T02:00:00+01:00'));
    expect([...log.timesS]).toEqual([0, 1]);
    expect(log.mapping.zone).toBe('as stated in each row');
  });
  it('says when a zone was not needed', () => {
    expect(logOf(text('2026-10-25T02:59:59Z'), { zone }).warnings).toEqual([
      'The file states its own zone (Z); --zone Europe/Vienna was not needed.',
    ]);
  });
});
