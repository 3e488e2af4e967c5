import { describe, expect, it } from 'vitest';
import { writeTidyCsv } from '../../src/logs/index.js';
import { logOf } from './exportOf.js';

describe('tidy CSV', () => {
  it('escapes formulas and quotes, leaves numbers alone and gaps empty', () => {
    const rows = [
      { time_s: 0, note: '=HYPERLINK("x")', 'P [W]': -1.25 },
      { time_s: 0.1 + 0.2, note: 'a, "b"\nc', 'P [W]': null },
    ];
    expect(writeTidyCsv(rows, ['time_s', 'P [W]', 'note'])).toBe(
      'time_s,P [W],note\n0,-1.25,"\'=HYPERLINK(""x"")"\n0.30000000000000004,,"a, ""b""\nc"\n',
    );
  });
  it.each(['=1', '+1', '-1', '@a'])('escapes the text %s', (text) => {
    expect(writeTidyCsv([{ a: text }], ['a'])).toBe(`a\n'${text}\n`);
  });
  it('reads back to the same values', () => {
    const power = [0.1 + 0.2, 1e-7, 900.0000000000001, -3.5];
    const rows = power.map((value, index) => ({ time_s: index / 3, power_W: value }));
    const log = logOf(writeTidyCsv(rows, ['time_s', 'power_W']));
    expect([...log.powerW!]).toEqual(power);
    expect([...log.timesS]).toEqual(rows.map((row) => row.time_s));
  });
});
