import { checkCovariance } from './checkCovariance.js';
import { tailBeyond } from './compareTwo.js';
import { checkCoverage, checkDegreesOfFreedom, checkFinite } from './distributionArguments.js';
import { holm } from './holm.js';
import { problem } from '../errors/index.js';

/** Two of the results; `better` is the one that came out ahead. Places count from 0. */
export interface RankedPair {
  readonly better: number;
  readonly worse: number;
  /** How far ahead, never negative. */
  readonly difference: number;
  /** Of the difference: what the two share has cancelled. */
  readonly standardUncertainty: number;
  readonly pValue: number;
  /** Holm's adjusted p value over all pairs. */
  readonly adjustedPValue: number;
  readonly settled: boolean;
}

/** One result among the others. Places count from 0, ranks from 1 (the best). */
export interface RankedResult {
  readonly index: number;
  readonly value: number;
  /** Rank by value alone. */
  readonly rank: number;
  /** The ranks that are not ruled out. */
  readonly ranks: readonly [best: number, worst: number];
  /** Whether only one rank is left. */
  readonly settled: boolean;
  /** Results it is settled to be behind of, ahead of, and those it can't be told from; in order of rank. */
  readonly behind: readonly number[];
  readonly aheadOf: readonly number[];
  readonly undecidedWith: readonly number[];
}

export interface Ranking {
  /** In order of rank. */
  readonly results: readonly RankedResult[];
  /** Every pair once. */
  readonly pairs: readonly RankedPair[];
  /** Whether every rank is settled. */
  readonly settled: boolean;
}

/** What is ranked. All values in one unit. */
export interface ResultsToRank {
  readonly values: readonly number[];
  /** Of the results, shared sources included: they cancel in the differences. */
  readonly covariance: readonly (readonly number[])[];
  /** Of a difference: one number for all pairs, or a symmetric table of them by the places of the two. */
  readonly degreesOfFreedom: number | readonly (readonly number[])[];
  /** Chance that every statement "a is ahead of b" of one ranking is true, at least; such as 0.95. */
  readonly coverage: number;
  /** Which end is best. */
  readonly best: 'highest' | 'lowest';
}

/**
 * Ranks of several results, with the range of ranks of each that the uncertainties leave open. All pairs are tested at
 * once: with probability `coverage` or more no settled pair is in the wrong order and every true rank lies in its range.
 *
 * Formula: u²(a − b) = V_aa + V_bb − 2V_ab, two-sided t tests, Holm's adjustment over the n(n − 1)/2 pairs; the best rank
 * is 1 + the number of results settled to be ahead, the worst n − the number settled to be behind. Source: S. Holm,
 * Scand. J. Statist. 6 (1979) 65; D. Al Mohamad, J. J. Goeman, E. W. van Zwet, Biometrics 78 (2022) 238 (from memory).
 *
 * @throws `too-few-values` for fewer than two, `value-not-finite`, `covariance-bad`, `degrees-of-freedom-bad`,
 *   `lengths-differ`, `coverage-bad`
 * @example
 * const covariance = [[2, 1, 1], [1, 2, 1], [1, 1, 2]];
 * const input = { values: [50, 41, 49], covariance, degreesOfFreedom: 12, coverage: 0.95, best: 'highest' };
 * const { results } = rankIntervals(input);
 * results.map((each) => each.index) // => [0, 2, 1]
 * results.map((each) => each.ranks) // => [[1, 2], [1, 2], [3, 3]]
 */
export function rankIntervals(input: ResultsToRank): Ranking {
  const order = checkedOrder(input);
  const pairs = pairsOf(input, order);
  const between = (a: number, b: number) =>
    pairs.find((p) => (p.better === a && p.worse === b) || (p.better === b && p.worse === a))!;
  const results = order.map((index, place): RankedResult => {
    const others = order.filter((other) => other !== index);
    const settled = others.filter((other) => between(index, other).settled);
    const behind = settled.filter((other) => between(index, other).better === other);
    const aheadOf = settled.filter((other) => between(index, other).better === index);
    const ranks = [1 + behind.length, order.length - aheadOf.length] as const;
    return {
      index,
      value: input.values[index]!,
      rank: place + 1,
      ranks,
      settled: ranks[0] === ranks[1],
      behind,
      aheadOf,
      undecidedWith: others.filter((other) => !settled.includes(other)),
    };
  });
  return { results, pairs, settled: results.every((each) => each.settled) };
}

/** The places in order of rank, equal values in the order given. */
function checkedOrder({ values, covariance, degreesOfFreedom, coverage, best }: ResultsToRank): number[] {
  const n = values.length;
  if (n < 2) throw problem('too-few-values', { what: 'A ranking', got: n, needed: 2 });
  values.forEach((value, i) => {
    checkFinite(value, `Result ${i + 1}`);
  });
  checkCovariance(covariance, n);
  checkCoverage(coverage);
  if (typeof degreesOfFreedom !== 'number')
    for (const list of [degreesOfFreedom, ...degreesOfFreedom])
      if (list.length !== n)
        throw problem('lengths-differ', {
          first: 'values',
          firstLength: n,
          second: 'degreesOfFreedom or a row of it',
          secondLength: list.length,
        });
  const sign = best === 'highest' ? 1 : -1;
  return values.map((_, i) => i).sort((a, b) => sign * (values[b]! - values[a]!));
}

function pairsOf(
  { values, covariance, degreesOfFreedom, coverage }: ResultsToRank,
  order: readonly number[],
): RankedPair[] {
  const pairs = order.flatMap((better, place) =>
    order.slice(place + 1).map((worse) => {
      const nu =
        typeof degreesOfFreedom === 'number'
          ? degreesOfFreedom
          : (degreesOfFreedom[better]![worse] ?? Number.NaN);
      checkDegreesOfFreedom(nu, `difference of results ${better + 1} and ${worse + 1}`);
      const difference = Math.abs(values[better]! - values[worse]!);
      const standardUncertainty = uncertaintyOfDifference(covariance, better, worse);
      const pValue = 2 * tailBeyond(difference, standardUncertainty, nu);
      return { better, worse, difference, standardUncertainty, pValue };
    }),
  );
  const adjusted = holm(pairs.map((pair) => pair.pValue));
  return pairs.map((pair, k) => ({
    ...pair,
    adjustedPValue: adjusted[k]!,
    settled: adjusted[k]! <= 1 - coverage,
  }));
}

/** Zero where all is shared, which rounding must not turn into the root of a negative number. */
function uncertaintyOfDifference(covariance: readonly (readonly number[])[], a: number, b: number): number {
  const sum = covariance[a]![a]! + covariance[b]![b]!;
  return Math.sqrt(Math.max(0, sum - 2 * covariance[a]![b]!));
}
