import { problem } from '../errors/index.js';
import { checkUncertainty } from './checkResults.js';
import { checkDegreesOfFreedom, checkFinite } from './distributionArguments.js';
import { findRoot } from './findRoot.js';
import { studentQuantile } from './studentQuantile.js';
import { studentTails } from './studentTails.js';

/**
 * The decision rule, settled before the test: `'simple'` takes the value as it is, so that near a limit it is wrong half
 * of the time; a `consumerRisk` keeps the chance that something called met is not met at or below it.
 */
export type LimitRule = 'simple' | { readonly consumerRisk: number };

/** What is judged. One limit or both; all in one unit. */
export interface ConformityInput {
  readonly value: number;
  readonly standardUncertainty: number;
  /** Infinity, the normal distribution, where it is left out. */
  readonly degreesOfFreedom?: number;
  readonly lower?: number;
  readonly upper?: number;
  readonly limitRule: LimitRule;
}

/** Two ends, null where there is none. */
export interface LimitRange {
  readonly lower: number | null;
  readonly upper: number | null;
}

/** Whether a requirement is met, as far as the measurement can tell. */
export interface Conformity {
  readonly probabilityConforming: number;
  readonly probabilityNotConforming: number;
  /** How far inside a limit a value must lie to be called met; null where no value could be. */
  readonly guardBand: number | null;
  /** Values from lower to upper are called met; null where no value could be: the uncertainty is too large. */
  readonly acceptance: LimitRange | null;
  /** Values beyond these are called not met. */
  readonly rejection: LimitRange;
  readonly verdict: 'met' | 'not met' | 'undecided';
}

/**
 * Conformity of a measured value with a lower limit, an upper limit, or both.
 *
 * Formula: p = F((upper − y)/u) − F((lower − y)/u), F normal or t. With a consumer's risk r the verdict is "met" where
 * 1 − p <= r (one limit: y at least the guard band g = t(1 − r)·u inside it) and "not met" where the true value lies
 * beyond one of the limits with probability 1 − r or more; "undecided" between. A value that lies on a limit meets it.
 * Source: JCGM 106:2012, 7.2 to 7.4 and 8.3; the three-way verdict is common practice, no source.
 *
 * @throws `limit-missing`, `limits-swapped`, `risk-bad`, `value-not-finite`, `uncertainty-unknown`,
 *   `degrees-of-freedom-bad`
 * @example
 * const judged = conformity({ value: 0.83, standardUncertainty: 0.01, lower: 0.8, limitRule: { consumerRisk: 0.05 } });
 * judged.probabilityConforming // => 0.99865
 * judged.guardBand // => 0.0164485
 * judged.verdict // => 'met'
 */
export function conformity(input: ConformityInput): Conformity {
  check(input);
  const { value, standardUncertainty: u, limitRule, lower, upper } = input;
  const nu = input.degreesOfFreedom ?? Number.POSITIVE_INFINITY;
  const { below, above, inside } = shares(input, nu);
  const probabilityNotConforming = Math.min(1, below + above);
  const probabilities = { probabilityConforming: inside, probabilityNotConforming };
  if (limitRule === 'simple') {
    const limits = range(lower, upper, 0);
    const met = (lower === undefined || value >= lower) && (upper === undefined || value <= upper);
    const verdict = met ? 'met' : 'not met';
    return { ...probabilities, guardBand: 0, acceptance: limits, rejection: limits, verdict };
  }
  const risk = limitRule.consumerRisk;
  const oneSided = -studentQuantile(risk, nu);
  const factor =
    lower === undefined || upper === undefined ? oneSided : guardFactor((upper - lower) / u, nu, risk);
  const guardBand = factor === null ? null : factor * u;
  const shownBeyond = Math.max(below, above) >= 1 - risk;
  return {
    ...probabilities,
    guardBand,
    acceptance: guardBand === null ? null : range(lower, upper, guardBand),
    rejection: range(lower, upper, -oneSided * u),
    verdict: probabilityNotConforming <= risk ? 'met' : shownBeyond ? 'not met' : 'undecided',
  };
}

/** Probabilities that the true value lies below the lower limit, above the upper one, and between. */
function shares({ value, standardUncertainty: u, lower, upper }: ConformityInput, nu: number) {
  const below = lower === undefined ? 0 : tail((value - lower) / u, nu, value >= lower);
  const above = upper === undefined ? 0 : tail((upper - value) / u, nu, value <= upper);
  const belowUpper = upper === undefined ? 1 : tail((value - upper) / u, nu, value > upper);
  const aboveLower = lower === undefined ? 1 : tail((lower - value) / u, nu, value < lower);
  // Of the two differences the one that takes off less, so that a small probability keeps its digits.
  const inside = below <= above ? belowUpper - below : aboveLower - above;
  return { below, above, inside: Math.max(0, inside) };
}

/** Probability beyond z standard uncertainties; `within` decides where u is zero, or z is not a number for that reason. */
function tail(z: number, nu: number, within: boolean): number {
  if (!Number.isFinite(z)) return within ? 0 : 1;
  const { beyond } = studentTails(Math.abs(z), nu);
  return z >= 0 ? beyond : 1 - beyond;
}

/** The z with tail(z) + tail(width − z) = risk at or below the middle of the width; null where even the middle has more. */
function guardFactor(width: number, nu: number, risk: number): number | null {
  const outside = (z: number) => studentTails(z, nu).beyond + studentTails(width - z, nu).beyond;
  if (width === Number.POSITIVE_INFINITY) return -studentQuantile(risk, nu);
  if (outside(width / 2) > risk) return null;
  if (outside(0) <= risk) return 0;
  return findRoot((z) => ({ value: risk - outside(z), slope: 0 }), [0, width / 2], width / 4);
}

function range(lower: number | undefined, upper: number | undefined, inwards: number): LimitRange {
  return {
    lower: lower === undefined ? null : lower + inwards,
    upper: upper === undefined ? null : upper - inwards,
  };
}

function check({
  value,
  standardUncertainty,
  degreesOfFreedom,
  lower,
  upper,
  limitRule,
}: ConformityInput): void {
  checkFinite(value, 'The value');
  checkUncertainty(standardUncertainty, 'value');
  if (degreesOfFreedom !== undefined) checkDegreesOfFreedom(degreesOfFreedom, 'value');
  if (lower === undefined && upper === undefined) throw problem('limit-missing', {});
  if (lower !== undefined) checkFinite(lower, 'The lower limit');
  if (upper !== undefined) checkFinite(upper, 'The upper limit');
  if (lower !== undefined && upper !== undefined && !(lower < upper))
    throw problem('limits-swapped', { lower: String(lower), upper: String(upper) });
  if (limitRule === 'simple') return;
  const risk = limitRule.consumerRisk;
  if (!(risk > 0 && risk <= 0.5)) throw problem('risk-bad', { got: String(risk) });
}
