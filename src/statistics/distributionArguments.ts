import { problem } from '../errors/index.js';

/** Throws unless p is a probability. */
export function checkProbability(p: number): void {
  if (!(p >= 0 && p <= 1)) throw problem('probability-bad', { got: String(p) });
}

/** Throws unless there are more than zero degrees of freedom. */
export function checkDegreesOfFreedom(degreesOfFreedom: number, source: string): void {
  if (!(degreesOfFreedom > 0))
    throw problem('degrees-of-freedom-bad', { source, got: String(degreesOfFreedom) });
}

/** Throws unless the coverage lies strictly between 0 and 1. */
export function checkCoverage(coverage: number): void {
  if (!(coverage > 0 && coverage < 1)) throw problem('coverage-bad', { got: String(coverage) });
}

/** Throws unless the significance level lies strictly between 0 and 1. */
export function checkSignificance(significance: number): void {
  if (!(significance > 0 && significance < 1))
    throw problem('significance-bad', { got: String(significance) });
}

/** Throws unless the value is a finite number. */
export function checkFinite(value: number, what: string): void {
  if (!Number.isFinite(value)) throw problem('value-not-finite', { what, got: String(value) });
}
