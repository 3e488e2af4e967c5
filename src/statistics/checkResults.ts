import { problem } from '../errors/index.js';

/** Throws unless there is at least one result and each has a finite value and a standard uncertainty >= 0. */
export function checkResults(values: readonly number[], uncertainties: readonly number[]): void {
  if (values.length === 0) throw problem('too-few-values', { what: 'A pooled mean', got: 0, needed: 1 });
  if (values.length !== uncertainties.length)
    throw problem('lengths-differ', {
      first: 'values',
      firstLength: values.length,
      second: 'uncertainties',
      secondLength: uncertainties.length,
    });
  values.forEach((value, index) => {
    if (!Number.isFinite(value))
      throw problem('value-not-finite', { what: `Run ${index + 1}`, got: String(value) });
    checkUncertainty(uncertainties[index]!, `run ${index + 1}`);
  });
}

/** The assumed spread from run to run of one or two runs; throws unless it is a finite number above zero. */
export function checkedSpread(assumedSpread: number | undefined, runs: number): number {
  if (assumedSpread !== undefined && assumedSpread > 0 && assumedSpread < Number.POSITIVE_INFINITY)
    return assumedSpread;
  throw problem('spread-unknown', {
    runs,
    got: assumedSpread === undefined ? 'missing' : String(assumedSpread),
  });
}

/** Throws unless u is a finite number of zero or more. */
export function checkUncertainty(u: number, source: string): void {
  if (!(u >= 0 && u < Number.POSITIVE_INFINITY))
    throw problem('uncertainty-unknown', { source, got: String(u) });
}
