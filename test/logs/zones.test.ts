import { describe, expect, it } from 'vitest';
import { errorOf, logOf } from './exportOf.js';

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
  it('follows a zone that moves its clock by half an hour', () => {
    // Lord Howe Island, zone data: +11:00 to 5 April 2026, 02:00, then +10:30; +11:00 again from 4 October, 02:00.
    const lordHowe = { zone: 'Australia/Lord_Howe' };
    const autumn = logOf(text('2026-04-05 01:29:50', '2026-04-05 01:59:50', '2026-04-05 01:30:00'), lordHowe);
    expect([...autumn.timesS]).toEqual([0, 1800, 1810]);
    expect(autumn.warnings[0]).toMatch(/moved by -0.5 h at line 4/);
    const spring = logOf(text('2026-10-04 01:59:50', '2026-10-04 02:30:00'), lordHowe);
    expect([...spring.timesS]).toEqual([0, 10]);
  });
  it('follows a zone that changes its offset for good, or leaves out a day', () => {
    // Zone data: Pyongyang went from +08:30 to +09:00 on 4 May 2018, 23:30; Apia had no 30 December 2011.
    const pyongyang = logOf(text('2018-05-04 23:29:50', '2018-05-05 00:00:00'), { zone: 'Asia/Pyongyang' });
    expect([...pyongyang.timesS]).toEqual([0, 10]);
    const apia = { zone: 'Pacific/Apia' };
    expect([...logOf(text('2011-12-29 23:59:50', '2011-12-31 00:00:00'), apia).timesS]).toEqual([0, 10]);
    expect(errorOf(() => logOf(text('2011-12-29 23:59:50', '2011-12-30 12:00:00'), apia)).code).toBe(
      'log-time-not-real',
    );
  });
  it('takes the zone of the header before one that is stated, and says so', () => {
    const log = logOf('Time (UTC+1),P [W]\n2026-07-01 10:00:00,900\n', { zone });
    expect(log.startUtcMs).toBe(Date.UTC(2026, 6, 1, 9));
    expect(log.warnings).toEqual([
      'The file states its own zone (+01:00); --zone Europe/Vienna was not needed.',
    ]);
    expect(logOf('Time (UTC),P [W]\n2026-07-01 10:00:00,900\n', { zone: 'UTC' }).warnings).toEqual([]);
  });
  it('says when a zone was not needed', () => {
    expect(logOf(text('2026-10-25T02:59:59Z'), { zone }).warnings).toEqual([
      'The file states its own zone (Z); --zone Europe/Vienna was not needed.',
    ]);
  });
});
