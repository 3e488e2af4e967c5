/**
 * Words that a person at a first heating has never heard and need not learn: they come with `--detail` and in the
 * report. Whole words, capitals or not.
 */
export const jargon: readonly RegExp[] = [
  'uncertaint(y|ies)',
  'coverage',
  'confidence',
  'intervals?',
  'standard deviations?',
  'deviations?',
  'variances?',
  'degrees of freedom',
  'budgets?',
  'enthalp(y|ies)',
  'calibrat(ion|ed|e)',
  'resolutions?',
  'correlat(ion|ed|ions)',
  'covariances?',
  'propagat(e|ed|es|ion)',
  'rectangular',
  'distributions?',
  'monte carlo',
  'sensitivit(y|ies)',
  'coefficients?',
  'systematic',
  'random errors?',
  'error sources?',
  'metrolog(y|ical)',
  'type [ab]',
  'sigma',
  'kappa',
  'quantisation',
  'quantization',
  'buoyancy',
  'formulation',
  'measurands?',
  'traceab(le|ility)',
  'repeatability',
  'reproducibility',
  'degrees of freedom',
  'welch',
  'jcgm',
  'gum',
  'iapws',
  'sha',
  'sha-256',
  'digests?',
  'hash(es)?',
  'json',
  'yaml',
  'schemas?',
  'journals?',
  'utc',
  'iso',
  'si',
  'undefined',
  'nan',
  'null',
]
  .map((word) => new RegExp(`(?<![\\w-])${word}(?![\\w-])`, 'i'))
  .concat(/\bk\s*=\s*\d/i, /[σκνχ±]\s*=/, /\bu\(/);

/** The words of the list that stand in a text, with a little of what is around each. */
export function jargonIn(text: string): string[] {
  return jargon.flatMap((word) => {
    const found = word.exec(text);
    return found ? [text.slice(Math.max(0, found.index - 20), found.index + 40).replaceAll('\n', ' ')] : [];
  });
}
