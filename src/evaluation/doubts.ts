import { describeLimits, describeResolution } from '../instruments/index.js';
import { coverageFactor } from '../statistics/index.js';
import type { Instrument } from '../workbook/index.js';
import type { Figure } from './types.js';

/** A doubt in plain words with its part of the squared width of the next heating's prediction. */
export interface Doubt {
  readonly words: string;
  readonly share: number;
  readonly kind: 'meter-steps' | 'meter' | 'thermometer' | 'scale' | 'scatter' | 'steam' | 'other';
}

/**
 * What makes the figure doubtful, in words that need no glossary, the biggest first. Sources of one cause (the
 * counter's steps before and after, one thermometer at both ends) are taken together.
 *
 * @example
 * const row = (id, contribution) => ({ id, source: id, instrument: null, contribution });
 * const spread = { basis: 'assumed', standardDeviation: 0.03 };
 * doubts({ budget: [row('salts in tap water', 0.04)], spread, runs: [{}] }, new Map()).map((doubt) => doubt.share) // => [0.64, 0.36]
 */
export function doubts(figure: Figure, instruments: ReadonlyMap<string, Instrument>): Doubt[] {
  const groups = new Map<string, { doubt: Omit<Doubt, 'share'>; variance: number }>();
  const put = (doubt: Omit<Doubt, 'share'>, variance: number) => {
    const known = groups.get(doubt.words);
    if (known) known.variance += variance;
    else groups.set(doubt.words, { doubt, variance });
  };
  // Scatter seen in few runs widens an interval by t, not by 1.96: that much more it counts.
  const seen =
    figure.spread.basis === 'seen' && figure.runs.length > 1
      ? coverageFactor(0.95, figure.runs.length - 1)
      : null;
  const weight = seen === null ? 1 : (seen / coverageFactor(0.95, Number.POSITIVE_INFINITY)) ** 2;
  for (const row of figure.budget) {
    const instrument = row.instrument === null ? undefined : instruments.get(row.instrument);
    put(
      doubtOf(row.id, row.source, instrument),
      (row.id === 'between-runs' ? weight : 1) * row.contribution ** 2,
    );
  }
  // The next heating scatters by itself, whatever the mean is known to.
  put({ words: scatterWords(figure), kind: 'scatter' }, weight * figure.spread.standardDeviation ** 2);
  const total = [...groups.values()].reduce((sum, group) => sum + group.variance, 0);
  return [...groups.values()]
    .map(({ doubt, variance }) => ({ ...doubt, share: total > 0 ? variance / total : 0 }))
    .sort((a, b) => b.share - a.share);

  function doubtOf(id: string, name: string, instrument: Instrument | undefined): Omit<Doubt, 'share'> {
    if (id === 'between-runs') return { words: scatterWords(figure), kind: 'scatter' };
    if (id.startsWith('allowance:steam')) return { words: 'the steam that was not weighed', kind: 'steam' };
    if (!instrument) return { words: name, kind: 'other' };
    if (instrument.kind === 'wattmeter') {
      if (id.includes(':step'))
        return { words: `the meter's ${describeResolution(instrument)}`, kind: 'meter-steps' };
      return { words: `the meter itself (${basis(instrument)})`, kind: 'meter' };
    }
    if (instrument.kind === 'thermometer')
      return { words: `the thermometer (${basis(instrument)})`, kind: 'thermometer' };
    if (instrument.kind === 'scale') return { words: `the scale (${basis(instrument)})`, kind: 'scale' };
    return { words: name, kind: 'other' };
  }
}

function basis(instrument: Instrument): string {
  return instrument.certificate ? 'as its certificate says' : describeLimits(instrument);
}

function scatterWords(figure: Figure): string {
  return figure.spread.basis === 'seen' ? 'scatter from run to run' : 'scatter from run to run, assumed';
}
