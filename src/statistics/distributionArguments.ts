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
