import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { describeLog, readExport } from '../../src/logs/index.js';
import { corpus } from './exportOf.js';
import { calendarForms } from './readings/calendarForms.js';
import { clockForms } from './readings/clockForms.js';
import type { Expected } from './readings/Expected.js';
import { elapsedForms } from './readings/elapsedForms.js';
import { numbersAndUnits } from './readings/numbersAndUnits.js';
import { quotedForms } from './readings/quotedForms.js';
import { rowTroubles } from './readings/rowTroubles.js';
import { textForms } from './readings/textForms.js';
import { words } from './readings/words.js';

// The reading of each file, written by hand from the file and not from the program.
const readings: Record<string, Expected> = {
  ...textForms,
  ...quotedForms,
  ...numbersAndUnits,
  ...words,
  ...elapsedForms,
  ...clockForms,
  ...calendarForms,
  ...rowTroubles,
};
const files = readdirSync(new URL('./corpus/', import.meta.url)).sort();

describe('the corpus', () => {
  it.each(Object.entries(readings))('%s reads as written by hand', (name, expected) => {
    const log = readExport(corpus(name), expected.options);
    const { delimiter, decimal, encoding, headerLine, firstDataLine, timeForm, zone, columns } = log.mapping;
    expect([delimiter, decimal, encoding, headerLine, firstDataLine]).toEqual(expected.layout);
    const start = log.startUtcMs === null ? null : new Date(log.startUtcMs).toISOString();
    expect([timeForm, zone, start]).toEqual(expected.time);
    expect(columns.map(({ role }) => role)).toEqual(expected.roles);
    expect(log.rows).toBe(expected.timesS.length);
    expectClose(log.timesS, expected.timesS);
    for (const [key, values] of Object.entries(expected.values)) {
      expectClose(log[key as 'powerW'] ?? new Float64Array(), values);
    }
    const patterns = expected.warnings ?? [];
    expect(log.warnings.length, log.warnings.join('\n')).toBe(patterns.length);
    for (const [index, pattern] of patterns.entries()) expect(log.warnings[index]).toMatch(pattern);
  });

  it('is all named here or in the tests of energy', () => {
    expect(files).toEqual([...Object.keys(readings), 'counter-only.csv'].sort());
    expect(files.length).toBeGreaterThanOrEqual(48);
  });
});

describe('the mapping in words', () => {
  it.each(files)('%s: whole sentences that name the evidence of every column in use', (name) => {
    const log = readExport(corpus(name), readings[name]?.options);
    const lines = describeLog(log);
    for (const line of lines) {
      expect(line).toMatch(/^[A-Z].*[^.\s]\.$/);
      expect(line).not.toMatch(/undefined|null|NaN|\[object| {2}/);
    }
    const { mapping } = log;
    expect(lines[0]).toContain(`(${mapping.decimalEvidence})`);
    expect(lines[1]).toMatch(/^(Header on line \d+|No header line), data from line \d+: \d+ rows? over /);
    expect(lines[2]).toMatch(/^Time: /);
    expect(lines[2]).toContain(mapping.timeEvidence);
    for (const column of mapping.columns.filter(({ role }) => role !== 'ignored')) {
      expect(column.evidence).toMatch(/\w/);
      expect(lines.filter((line) => line.includes(column.evidence))).toHaveLength(1);
    }
    const notRead = lines.find((line) => line.startsWith('Not read: ')) ?? '';
    for (const { header } of mapping.columns.filter((column) => column.role === 'ignored'))
      expect(notRead).toContain(header);
  });
});

function expectClose(got: Float64Array, expected: readonly number[]): void {
  expect(got.length).toBe(expected.length);
  // Double arithmetic on a few operations: 1e-9 leaves a factor of 1e3 at the largest value here.
  for (const [index, value] of expected.entries()) {
    if (Number.isNaN(value)) expect(got[index]).toBeNaN();
    else expect(Math.abs(got[index]! - value)).toBeLessThan(1e-9 * Math.max(1, Math.abs(value)));
  }
}
