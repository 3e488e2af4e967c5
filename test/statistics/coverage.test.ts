import { describe, expect, it } from 'vitest';
import { coverageFactor, welchSatterthwaite } from '../../src/statistics/index.js';
import { exampleG4, tableG2, tableG2Coverages } from '../reference/statistics.js';

describe('coverage factor', () => {
  it.each(tableG2)('gives the row of table G.2 for %d degrees of freedom', (nu, row) => {
    row.forEach((k, column) => {
      expect(Math.abs(coverageFactor(tableG2Coverages[column]!, nu) - k)).toBeLessThanOrEqual(0.00501);
    });
  });
  it.each([0, 1, -1, Number.NaN])('refuses a coverage of %d', (coverage) =>
    expect(() => coverageFactor(coverage, 5)).toThrow('coverage must lie between 0 and 1'),
  );
  it('refuses zero degrees of freedom', () =>
    expect(() => coverageFactor(0.95, 0)).toThrow('more than zero'));
});

describe('Welch–Satterthwaite', () => {
  it('gives the example of G.4.1', () => {
    const combined = Math.hypot(...exampleG4.components.map((c) => c.u));
    const effective = welchSatterthwaite(exampleG4.components);
    expect(combined).toBeCloseTo(exampleG4.combined, 2);
    expect(effective).toBeCloseTo(exampleG4.effective, 1);
    expect(coverageFactor(0.95, effective)).toBeCloseTo(exampleG4.t95, 2);
    expect(coverageFactor(0.95, effective) * combined).toBeCloseTo(exampleG4.expanded, 1);
  });
  // JCGM 100:2008, G.4.1: N equal contributions of ν each give N·ν, here 4 · 10.
  it('adds up the degrees of freedom of equal terms', () =>
    expect(welchSatterthwaite(Array.from({ length: 4 }, () => ({ u: 3, degreesOfFreedom: 10 })))).toBeCloseTo(
      40,
      12,
    ));
  it('is infinite where nothing finite contributes', () => {
    expect(welchSatterthwaite([{ u: 1, degreesOfFreedom: Infinity }])).toBe(Infinity);
    expect(welchSatterthwaite([{ u: 0, degreesOfFreedom: 3 }])).toBe(Infinity);
    const unused = { u: 0, degreesOfFreedom: 2 };
    expect(welchSatterthwaite([{ u: 1, degreesOfFreedom: Infinity }, unused])).toBe(Infinity);
  });
  it.each([1e-200, 1e200])('does not depend on the unit (%d)', (scale) =>
    expect(welchSatterthwaite(exampleG4.components.map((c) => ({ ...c, u: c.u * scale })))).toBeCloseTo(
      18.9987,
      4,
    ),
  );
  it('names the component that is wrong', () => {
    const good = { u: 1, degreesOfFreedom: 3 };
    expect(() => welchSatterthwaite([])).toThrow('at least 1 value');
    expect(() => welchSatterthwaite([good, { u: -1, degreesOfFreedom: 3 }])).toThrow('"component 2"');
    expect(() => welchSatterthwaite([good, { u: Number.NaN, degreesOfFreedom: 3 }])).toThrow(
      'Unknown is never zero',
    );
    expect(() => welchSatterthwaite([good, { u: 1, degreesOfFreedom: 0 }])).toThrow('"component 2"');
  });
});
