import { describe, expect, it } from 'vitest';
import { ProgressLine } from '../../src/cli/ProgressLine.js';

/** A line on a terminal of some width, with a clock that stands until it is set. */
function lineOn(columns: number | undefined = 80, isTTY = true) {
  const written: string[] = [];
  const clock = { ms: 5000 };
  const line = new ProgressLine({ isTTY, columns, write: (text) => written.push(text) }, () => clock.ms);
  return {
    written,
    line,
    /** Reports at a time after the beginning. */
    at(ms: number, rows: number, share: number): void {
      clock.ms = 5000 + ms;
      line.report({ rows, done: share * 1000, total: 1000 });
    },
    /** What stands on the line: the text after the last carriage return. */
    shown: () => (written.at(-1) ?? '').replace(/^\r/, '').replace('\x1b[K', ''),
  };
}

describe('the line of progress', () => {
  it('says nothing in the first second', () => {
    const { at, written, line } = lineOn();
    for (const ms of [0, 10, 500, 999]) at(ms, 100, 0.5);
    line.clear();
    expect(written).toEqual([]);
  });

  it('shows a bar, the rows and the time left', () => {
    const { at, shown } = lineOn();
    // A quarter in 1 s: three quarters more take 3 s.
    at(1000, 1_234_567, 0.25);
    expect(shown()).toBe(`${':'.repeat(8)}${'.'.repeat(22)}  1.2 million rows, 3 s left`);
  });

  it.each<[number, number, number, string]>([
    [1000, 1, 0.5, '1 row, 1 s left'],
    [1000, 999, 0.5, '999 rows, 1 s left'],
    [1000, 1000, 0.5, '1 thousand rows, 1 s left'],
    [2000, 12_499, 0.5, '12 thousand rows, 2 s left'],
    [2000, 999_499, 0.5, '999 thousand rows, 2 s left'],
    [2000, 999_500, 0.5, '1.0 million rows, 2 s left'],
    [1000, 5e6, 1, '5.0 million rows, 1 s left'],
    [1000, 5000, 0.01, '5 thousand rows, 2 min left'],
    [89_000, 5000, 0.5, '5 thousand rows, 89 s left'],
    [90_000, 5000, 0.5, '5 thousand rows, 2 min left'],
    [7_200_000, 5000, 0.5, '5 thousand rows, 2 h left'],
    [1000, 0, 0, '0 rows'],
  ])('after %i ms with %d rows, %d of the work: %s', (ms, rows, share, words) => {
    const { at, shown } = lineOn();
    at(ms, rows, share);
    expect(shown().replace(/^[:.]+ {2}/, '')).toBe(words);
  });

  it('is drawn five times a second at most, however often it is told', () => {
    const { at, written } = lineOn();
    for (let ms = 0; ms <= 3000; ms += 7) at(ms, ms, ms / 4000);
    // 1001, 1204, 1407 ...: every 203 ms, the first multiple of 7 from 200 on.
    expect(written).toHaveLength(Math.floor((3000 - 1001) / 203) + 1);
  });

  it('is drawn over itself in place, and taken away at the end', () => {
    const { at, written, line } = lineOn();
    at(1000, 10, 0.1);
    at(1300, 20, 0.2);
    line.clear();
    for (const text of written) {
      expect([text.startsWith('\r'), text.endsWith('\x1b[K')]).toEqual([true, true]);
      expect(text.slice(1)).not.toMatch(/[\r\n]/);
    }
    expect(written.at(-1)).toBe('\r\x1b[K');
    line.clear();
    expect(written).toHaveLength(3);
  });

  it.each([20, 30, 40, 60, 80, 200])(
    'fits a terminal of %i columns, and leaves the last one free',
    (columns) => {
      for (const [rows, share] of [
        [1_234_567, 0.25],
        [999_499, 0.5],
        [3, 0.999],
      ] as const) {
        const { at, shown } = lineOn(columns);
        at(1000, rows, share);
        expect(shown().length).toBeGreaterThan(0);
        expect(shown().length).toBeLessThan(columns);
        expect(shown()).toMatch(columns < 30 ? /%$|left$/ : /rows, \d+ s left$/);
      }
    },
  );

  it('still has its bar at 40 columns', () => {
    const { at, shown } = lineOn(40);
    at(1000, 1_234_567, 0.25);
    expect(shown()).toBe(':::........  1.2 million rows, 3 s left');
  });

  it('takes 80 columns where the terminal says it has none', () => {
    const { at, shown } = lineOn(0);
    at(1000, 1_234_567, 0.25);
    expect(shown()).toMatch(/^:+\.+ {2}1\.2 million rows, 3 s left$/);
  });

  it('takes 80 columns where the width is not known', () => {
    const { at, shown } = lineOn(undefined);
    at(1000, 1000, 0.5);
    expect(shown()).toMatch(/^:{15}\.{15} {2}1 thousand/);
  });

  it('is nowhere but at a terminal', () => {
    const { at, written, line } = lineOn(80, false);
    at(5000, 10, 0.5);
    line.clear();
    expect(written).toEqual([]);
  });
});
