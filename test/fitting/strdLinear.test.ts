import { describe, expect, it } from 'vitest';
import { type FitResult, fitPolynomial, linearFit } from '../../src/fitting/index.js';
import { strdLinear } from '../reference/strd-linear.js';
import { strdRegression } from '../reference/strdRegression.js';
import { type LinearSet, readLinear } from '../support/strd.mjs';

/** The typed sets in one form; powers of x are its columns. */
const typed: Readonly<Record<string, LinearSet>> = {
  ...Object.fromEntries(
    Object.entries(strdLinear).map(([name, set]) => [
      name,
      { ...set, columns: set.parameters.map((_, power) => set.x.map((x) => x ** power)) },
    ]),
  ),
  ...Object.fromEntries(
    Object.entries(strdRegression).map(([name, set]) => [
      name,
      { ...set, x: name.startsWith('Wampler') ? set.columns[1]! : null },
    ]),
  ),
};
const folder = process.env.STRD_DIR;
const sets = folder ? readLinear(folder) : typed;

/** Standard errors per standard deviation of y: of Wampler3, whose design the exact Wampler1 and Wampler2 share. */
function unitErrors(name: string, set: LinearSet): readonly number[] {
  const source = /^Wampler[12]$/.test(name) ? sets.Wampler3! : set;
  return source.standardErrors.map((u) => u / source.residualStandardDeviation);
}

/** Nine digits of every parameter, or what `limits` says, and nine of every certified deviation. */
function expectDigits(set: LinearSet, found: FitResult, limits?: readonly number[]): void {
  set.parameters.forEach((b, j) => {
    const allowed = Math.max(1e-9 * Math.abs(b), limits?.[j] ?? 0);
    expect(Math.abs(found.parameters[j]! - b), `parameter ${j}`).toBeLessThanOrEqual(allowed);
  });
  if (set.residualStandardDeviation > 0)
    set.standardErrors.forEach((u, j) => {
      expect(Math.abs(found.standardErrors![j]! / u - 1), `deviation ${j}`).toBeLessThan(1e-9);
    });
  // An exact fit leaves residuals of rounding: a few ε of y.
  else expect(found.residualStandardDeviation!).toBeLessThan(4 * Number.EPSILON * Math.hypot(...set.y));
}

describe('the linear sets of NIST StRD', () => {
  it('are all eleven', () => {
    expect(Object.keys(typed)).toHaveLength(11);
    expect(Object.keys(sets).sort()).toEqual(Object.keys(typed).sort());
  });
  it.each(Object.entries(sets).filter(([, set]) => set.x !== null))('%s as a polynomial', (name, set) => {
    // The rounding of y, ε·|y| in length, moves a parameter by up to ε·|y|·u/s, with u/s its standard error per standard
    // deviation of y; a few such steps add up. It matters for Wampler5 alone, whose y is 2e7 times b0.
    const length = Math.hypot(...set.y);
    const limits = unitErrors(name, set).map((unit) => 4 * Number.EPSILON * length * unit);
    expectDigits(set, fitPolynomial({ x: set.x!, y: set.y, degree: set.parameters.length - 1 }), limits);
  });
  it.each(Object.entries(sets).filter(([name]) => name !== 'Filip'))('%s as columns', (_name, set) => {
    expectDigits(set, linearFit({ columns: set.columns, y: set.y }));
  });
  it('Filip reaches 12 digits as a polynomial and 6 as columns of raw powers', () => {
    const { x, y, columns, parameters } = sets.Filip!;
    const worst = (found: FitResult) =>
      Math.max(...parameters.map((b, j) => Math.abs(found.parameters[j]! / b - 1)));
    // Reached: 13.2. ε·|y|·u/s is 1.1e-13 of b0; ten times that is room for sums in another order.
    expect(worst(fitPolynomial({ x: x!, y, degree: 10 }))).toBeLessThan(1.2e-12);
    // Reached: 8.0. x¹⁰ itself is rounded here, by 1e-16 of a column that sticks out of the others by 1e-10 of its length.
    expect(worst(linearFit({ columns, y }))).toBeLessThan(1e-6);
  });
});

if (folder)
  describe('the typed linear sets', () => {
    it('are those of the folder', () => {
      for (const [name, set] of Object.entries(sets)) {
        const { columns, y, parameters, standardErrors, residualStandardDeviation } = typed[name]!;
        expect({ columns, y, parameters, standardErrors, residualStandardDeviation }, name).toEqual({
          columns: set.columns,
          y: set.y,
          parameters: set.parameters,
          standardErrors: set.standardErrors,
          residualStandardDeviation: set.residualStandardDeviation,
        });
      }
    });
  });
