import { describe, expect, it } from 'vitest';
import { readExport } from '../../src/logs/index.js';
import type { Evidence } from './mutants/Evidence.js';
import { evidenceIn } from './mutants/evidenceIn.js';
import { originals } from './mutants/Original.js';
import { plainRows } from './mutants/plainRows.js';

/** What the judge of the mutants sees in an export; the program says only which column is which. */
function seen(text: string): Evidence[] {
  const head = text.split('\n').slice(0, 3).join('\n');
  const { mapping } = readExport(new TextEncoder().encode(head), { zone: 'UTC' });
  return evidenceIn(plainRows(new TextEncoder().encode(text), mapping)!);
}

const rows = (header: string, cells: readonly string[]) => `${header}\n${cells.join('\n')}\n`;
const power = (watts: readonly number[], times = watts.map((_, i) => 10 * i)) =>
  rows(
    't [s],P [W]',
    watts.map((each, i) => `${times[i]},${each}`),
  );
const counted = (wattHours: readonly number[]) =>
  rows(
    't [s],P [W],E [Wh]',
    wattHours.map((each, i) => `${10 * i},900,${each}`),
  );
const electric = (cells: readonly string[]) =>
  rows(
    't [s],P [W],U [V],I [A],cos phi',
    cells.map((each, i) => `${10 * i},${each}`),
  );
const steady = Array.from({ length: 8 }, () => 900);

// 900 W for 10 s are 2.5 Wh.
const rising = [0, 2.5, 5, 7.5, 10, 12.5, 15, 17.5, 20];

describe('the judge of the mutants', () => {
  it.each<[string, string, Evidence[]]>([
    ['a steady power', power(steady), []],
    ['a time that goes back', power(steady, [0, 10, 20, 15, 30, 40, 50, 60]), ['time goes back']],
    ['a time that repeats', power(steady, [0, 10, 20, 20, 30, 40, 50, 60]), ['time repeats']],
    ['the newest row first', power(steady, [70, 60, 50, 40, 30, 20, 10, 0]), []],
    ['a gap', power(steady, [0, 10, 20, 30, 140, 150, 160, 170]), ['gap']],
    [
      'a row that is missing among many',
      power(
        Array.from({ length: 20 }, () => 900),
        Array.from({ length: 20 }, (_, i) => (i < 5 ? 10 * i : 10 * i + 10)),
      ),
      ['rows missing'],
    ],
    ['a spike', power([900, 900, 900, 9000, 900, 900, 900]), ['spike']],
    ['a power below zero', power([900, 900, -900, 900, 900, 900]), ['power below zero']],
    ['megawatts', power(steady.map((watts) => 1000 * watts)), ['power beyond any socket']],
    ['a counter that goes with the power', counted(rising), []],
    ['a counter that falls', counted([10, 12.5, 15, 2.5, 5, 7.5]), ['counter falls']],
    [
      'a counter of half the energy',
      counted(Array.from({ length: 40 }, (_, i) => 1.25 * i)),
      ['counter against power'],
    ],
    ['volts and amps that go with the power', electric(steady.map(() => '900,230,3.913,1')), []],
    ['a power factor above 1', electric(steady.map(() => '900,230,3.13,1.25')), ['power factor above 1']],
    [
      'a power of half the volts times amps',
      electric(steady.map(() => '450,230,3.913,1')),
      ['power against volts and amps'],
    ],
    [
      'milk at 900 °C',
      rows(
        't [s],P [W],T [°C]',
        steady.map((watts, i) => `${10 * i},${watts},${i === 4 ? 900 : 20}`),
      ),
      ['temperature out of range'],
    ],
  ])('%s', (_name, text, evidence) => expect(seen(text)).toEqual(evidence));

  it('reads every original but those written in ways that it does not know', () => {
    const unread = originals.filter(({ bytes, mapping }) => plainRows(bytes, mapping) === null);
    expect(unread.map(({ name }) => name)).toEqual([
      'iso-basic.csv',
      'iso-ordinal-basic.csv',
      'iso-week-basic.csv',
      'month-name-english.csv',
      'month-name-weekday.csv',
      'preamble-trailer.csv',
      'repeated-header.csv',
      'rfc-line-breaks.csv',
      'row-count-one-column.csv',
      'row-count.csv',
      'unit-in-cell.csv',
    ]);
  });
  it('sees nothing in the fuller ones', () => {
    for (const { bytes, mapping, fuller } of originals)
      if (fuller) expect(evidenceIn(plainRows(bytes, mapping)!)).toEqual([]);
  });
});
