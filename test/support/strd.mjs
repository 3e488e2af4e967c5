/** Help for the checks against NIST's Statistical Reference Datasets, for tests and for the bench. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * @typedef {readonly [start1: number, start2: number, value: number, deviation: number]} CertifiedParameter
 * @typedef {{ x: readonly any[], y: readonly number[], parameters: readonly CertifiedParameter[], residualSumOfSquares: number }} NonlinearSet
 * @typedef {{ columns: readonly (readonly number[])[], x: readonly number[] | null, y: readonly number[],
 *   parameters: readonly number[], standardErrors: readonly number[], residualStandardDeviation: number }} LinearSet
 */

/**
 * Digits in which two numbers agree: −log10 of the relative difference, of the plain one where `wanted` is 0; the tables give 11.
 * @param {number} got @param {number} wanted @returns {number}
 */
export function digits(got, wanted) {
  const difference = Math.abs(got - wanted) / (wanted === 0 ? 1 : Math.abs(wanted));
  // An unknown number agrees in no digit.
  return difference >= 0 ? Math.min(11, -Math.log10(difference)) : -Infinity;
}

/** Digits of the standard deviations that are asked for: double precision ends at 3 for Lanczos1. @param {string} name */
export const deviationDigits = (name) => (name === 'Lanczos1' ? 3 : 4);
export const parameterDigits = 6;

/**
 * The least digits of a fit over all parameters and over all standard deviations.
 * @param {{ parameters: readonly number[], standardErrors: readonly number[] | null }} fitted
 * @param {readonly CertifiedParameter[]} certified
 */
export function agreement(fitted, certified) {
  return {
    parameters: Math.min(...certified.map((row, j) => digits(fitted.parameters[j] ?? Number.NaN, row[2]))),
    deviations: Math.min(
      ...certified.map((row, j) => digits(fitted.standardErrors?.[j] ?? Number.NaN, row[3])),
    ),
  };
}

/**
 * All nonlinear sets of a folder with `strd_nonlinear.json`: { datasets: { NAME: { data: [[y, x...]...], parameters: [{ start1,
 * start2, certified, sd }...], rss } } }. Nelson's response is log(y), its x a pair.
 * @param {string} folder @returns {Record<string, NonlinearSet>}
 */
export function readNonlinear(folder) {
  return readSets(folder, 'strd_nonlinear.json', (set, name) => ({
    x: set.data.map((/** @type {number[]} */ row) => (row.length > 2 ? row.slice(1) : row[1])),
    y: set.data.map((/** @type {number[]} */ [y]) => (name === 'Nelson' ? Math.log(y ?? Number.NaN) : y)),
    parameters: set.parameters.map((/** @type {any} */ p) => [p.start1, p.start2, p.certified, p.sd]),
    residualSumOfSquares: set.rss,
  }));
}

/**
 * All linear sets of a folder with `strd_linear.json`, of the same form with B0, B1, ... for names; `x` is null for multiple regression and for
 * lines through the origin.
 * @param {string} folder @returns {Record<string, LinearSet>}
 */
export function readLinear(folder) {
  return readSets(folder, 'strd_linear.json', (set) => {
    /** @type {number[][]} */
    const rows = set.data;
    const many = set.columns.length > 2;
    const columns = set.parameters.map((/** @type {{ name: string }} */ { name }) => {
      const k = Number(name.slice(1));
      return rows.map((row) => (many ? (k === 0 ? 1 : row[k]) : (row[1] ?? Number.NaN) ** k));
    });
    return {
      columns,
      x: many || !set.intercept ? null : rows.map((row) => row[1] ?? Number.NaN),
      y: rows.map((row) => row[0] ?? Number.NaN),
      parameters: set.parameters.map((/** @type {any} */ p) => p.certified),
      standardErrors: set.parameters.map((/** @type {any} */ p) => p.sd),
      residualStandardDeviation: set.residual_sd,
    };
  });
}

/**
 * @template T
 * @param {string} folder @param {string} file @param {(set: any, name: string) => T} convert
 * @returns {Record<string, T>}
 */
function readSets(folder, file, convert) {
  const { datasets } = JSON.parse(readFileSync(join(folder, file), 'utf8'));
  return Object.fromEntries(Object.entries(datasets).map(([name, set]) => [name, convert(set, name)]));
}
