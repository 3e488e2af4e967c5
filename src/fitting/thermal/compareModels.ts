import { problem } from '../../errors/index.js';
import type { ThermalFit } from './types.js';

/** A fit among others to the same data. */
export interface RankedModel {
  readonly fit: ThermalFit;
  /** Above the least; null where the data don't settle a fit. */
  readonly difference: number | null;
  /** Part of the evidence, 0 to 1: exp(−difference/2) over its sum. */
  readonly weight: number;
}

/** Fits in order, the best first, and what to say of them. */
export interface ModelComparison {
  readonly ranked: readonly RankedModel[];
  readonly sentence: string;
}

const names = {
  approach: 'the approach',
  coolDown: 'the cool-down',
  oneNode: 'one node',
  twoNode: 'two nodes',
};
/** A weight from which one model stands alone (common practice, no source). */
const alone = 0.95;

/**
 * Compares fits of different models to the same block means by AICc and Akaike weights. Fits that the data
 * don't settle come last with weight 0. A model that is best of its kind may still be bad: see each fit's `verdict`.
 *
 * Source: K. P. Burnham, D. R. Anderson, Model Selection and Multimodel Inference (2002), section 2.9, from memory.
 *
 * @throws `too-few-values` for less than two fits, `fits-differ` where they don't share the block means
 * @example
 * const timesS = Array.from({ length: 181 }, (_, i) => 20 * i);
 * const temperaturesK = timesS.map((t) => 290 + 0.06 * (t - 150 * (1 - Math.exp(-t / 150))) + 0.01 * Math.sin(t));
 * const data = { temperature: { timesS, temperaturesK }, power: { timesS: [0, 3600], powerW: [900, 900] }, ambient: 290 };
 * compareModels([fitOneNode(data), fitTwoNode(data)]).ranked[0].fit.model // => 'twoNode'
 */
export function compareModels(fits: readonly ThermalFit[]): ModelComparison {
  if (fits.length < 2)
    throw problem('too-few-values', { what: 'A comparison of models', got: fits.length, needed: 2 });
  const [first] = fits as [ThermalFit];
  const other = fits.find(({ curve }) => !isSame(curve, first.curve));
  if (other)
    throw problem('fits-differ', {
      first: first.model,
      second: other.model,
      firstBlocks: first.blocks.count,
      secondBlocks: other.blocks.count,
    });
  const usable = fits.filter(
    ({ converged, covariance, aicc }) => converged && covariance !== null && Number.isFinite(aicc),
  );
  const least = Math.min(...usable.map(({ aicc }) => aicc));
  const part = (fit: ThermalFit) => (usable.includes(fit) ? Math.exp((least - fit.aicc) / 2) : 0);
  const total = fits.reduce((sum, fit) => sum + part(fit), 0);
  const ranked = fits
    .map((fit) => ({
      fit,
      difference: usable.includes(fit) ? fit.aicc - least : null,
      weight: total > 0 ? part(fit) / total : 0,
    }))
    .sort((a, b) => (a.difference ?? Number.POSITIVE_INFINITY) - (b.difference ?? Number.POSITIVE_INFINITY));
  return { ranked, sentence: sentenceOf(ranked) };
}

function sentenceOf(ranked: readonly RankedModel[]): string {
  const [best, second] = ranked as [RankedModel, RankedModel];
  if (best.weight === 0) return 'None of the models could be fitted.';
  const name = names[best.fit.model];
  const clear =
    best.weight >= alone
      ? `Of these models ${name} explains the log best, clearly.`
      : `${name[0]!.toUpperCase()}${name.slice(1)} and ${names[second.fit.model]} explain the log about equally well.`;
  return best.fit.verdict.fits ? clear : `${clear} Yet it doesn't fit. ${best.fit.verdict.sentence}`;
}

function isSame(a: ThermalFit['curve'], b: ThermalFit['curve']): boolean {
  return (
    a.timesS.length === b.timesS.length &&
    a.timesS.every((t, k) => t === b.timesS[k]) &&
    a.observedK.every((value, k) => value === b.observedK[k])
  );
}
