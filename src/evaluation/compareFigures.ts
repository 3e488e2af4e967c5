import {
  type Comparison,
  type Ranking,
  compareTwo,
  rankIntervals,
  welchSatterthwaite,
} from '../statistics/index.js';
import { problem } from '../errors/index.js';
import type { Figure } from './types.js';

export interface FigurePair {
  /** Places of the two among the figures compared. */
  readonly first: number;
  readonly second: number;
  /** First less second, what both share cancelled. */
  readonly comparison: Comparison;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
}

export interface FigureComparison {
  readonly figures: readonly Figure[];
  readonly pairs: readonly FigurePair[];
  /** Ranks with what is not settled; pairs are judged together, so that many comparisons don't find differences by chance. */
  readonly ranking: Ranking;
  readonly warnings: readonly string[];
}

/**
 * Whether figures differ: two or many of one workbook. Sources that two figures share (one meter, one thermometer)
 * cancel in their difference; what is fresh in each, and the scatter between its runs, does not. Degrees of freedom
 * of a difference by Welch and Satterthwaite.
 *
 * Throws `too-few-figures` for fewer than two, `definitions-differ` where the definitions of efficiency differ.
 *
 * @example
 * const own = { u: 0.01, degreesOfFreedom: Infinity };
 * const [protocol, spread] = [{ name: 'water-heating' }, { basis: 'seen' }];
 * const figureOf = (value) => ({ definition: 'water', efficiency: { value }, parts: { shared: [], own }, protocol, spread, runs: [] });
 * compareFigures([figureOf(0.7), figureOf(0.65)]).pairs[0].standardUncertainty // => 0.014142
 * compareFigures([figureOf(0.7)]) // throws 'too-few-figures'
 */
export function compareFigures(figures: readonly Figure[], coverage = 0.95): FigureComparison {
  const [first] = figures;
  if (!first || figures.length < 2) throw problem('too-few-figures', { got: figures.length });
  const other = figures.find((figure) => figure.definition !== first.definition);
  if (other) throw problem('definitions-differ', { first: first.definition, second: other.definition });
  const n = figures.length;
  const covariance = figures.map((a) => figures.map((b) => covarianceOf(a, b)));
  const degrees = figures.map((a) =>
    figures.map((b) => (a === b ? Number.POSITIVE_INFINITY : differenceOf(a, b).degreesOfFreedom)),
  );
  const pairs: FigurePair[] = [];
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const [a, b] = [figures[i] as Figure, figures[j] as Figure];
      const { u, degreesOfFreedom } = differenceOf(a, b);
      const difference = a.efficiency.value - b.efficiency.value;
      const comparison = compareTwo({ difference, standardUncertainty: u, degreesOfFreedom, coverage });
      pairs.push({ first: i, second: j, comparison, standardUncertainty: u, degreesOfFreedom });
    }
  }
  const ranking = rankIntervals({
    values: figures.map((figure) => figure.efficiency.value),
    covariance,
    degreesOfFreedom: degrees,
    coverage,
    best: 'highest',
  });
  return { figures, pairs, ranking, warnings: warningsOf(figures) };
}

/** Covariance of two figures: through the sources they share; with itself the whole variance. */
function covarianceOf(a: Figure, b: Figure): number {
  const byId = new Map(b.parts.shared.map((part) => [part.source.id, part.sensitivity]));
  let sum = 0;
  for (const part of a.parts.shared) {
    sum += part.sensitivity * (byId.get(part.source.id) ?? 0) * part.source.standardUncertainty ** 2;
  }
  return a === b ? sum + a.parts.own.u ** 2 : sum;
}

function differenceOf(a: Figure, b: Figure): { u: number; degreesOfFreedom: number } {
  const byId = new Map(
    a.parts.shared.map((part) => [part.source.id, { source: part.source, sensitivity: part.sensitivity }]),
  );
  for (const part of b.parts.shared) {
    const known = byId.get(part.source.id);
    if (known) known.sensitivity -= part.sensitivity;
    else byId.set(part.source.id, { source: part.source, sensitivity: -part.sensitivity });
  }
  const components = [...byId.values()].map(({ source, sensitivity }) => ({
    u: Math.abs(sensitivity) * source.standardUncertainty,
    degreesOfFreedom: source.degreesOfFreedom,
  }));
  components.push(a.parts.own, b.parts.own);
  const u = Math.sqrt(components.reduce((sum, component) => sum + component.u ** 2, 0));
  return { u, degreesOfFreedom: u > 0 ? welchSatterthwaite(components) : Number.POSITIVE_INFINITY };
}

function warningsOf(figures: readonly Figure[]): string[] {
  const warnings: string[] = [];
  const few = figures.filter((figure) => figure.spread.basis === 'assumed');
  if (few.length > 0) {
    warnings.push(
      `${few.map(nameOf).join(', ')}: too few runs to see the scatter between them; it is ${few[0]?.spread.words}.`,
    );
  }
  const protocols = new Set(figures.map((figure) => figure.protocol.name));
  if (protocols.size > 1)
    warnings.push(`The figures come from different procedures: ${[...protocols].join(', ')}.`);
  const rises = figures.flatMap((figure) => figure.runs.map((run) => run.conditions.endK));
  if (Math.max(...rises) - Math.min(...rises) > 5) {
    warnings.push(
      'The runs ended at temperatures more than 5 K apart; part of a difference may come from that.',
    );
  }
  return warnings;
}

/**
 * Heater and setting of a figure in one word.
 *
 * @example
 * nameOf({ heater: { id: 'vat-warmer' }, setting: 'gentle' }) // => 'vat-warmer/gentle'
 */
export function nameOf(figure: Figure): string {
  return `${figure.heater.id}/${figure.setting}`;
}
