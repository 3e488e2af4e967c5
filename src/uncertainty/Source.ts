import { problem } from '../errors/index.js';

/** Shapes of an error source. All have mean zero: what is known about the error's size, never its sign. */
export type Distribution = 'normal' | 't' | 'rectangular' | 'triangular' | 'trapezoidal' | 'arcsine';

/**
 * What an error is shared by, from the widest to the narrowest. An error of scope `instrument` is the same in
 * every reading, run and setting; one of scope `reading` is fresh each time.
 */
export type Scope = 'lab' | 'instrument' | 'heater' | 'setting' | 'run' | 'reading';

/** Sources that are jointly normal, or jointly t: the parameters of a fit, means of readings taken together. */
export interface SourceGroup {
  readonly id: string;
  readonly names: readonly string[];
  readonly covariance: readonly (readonly number[])[];
  /** Lower triangle L with L·Lᵀ the covariance. */
  readonly factor: readonly (readonly number[])[];
  /** Of the covariance as a whole; Infinity where it is not in doubt. */
  readonly degreesOfFreedom: number;
}

/** Id of a member of a group as a source. */
export const memberId = (group: string, name: string): string => `${group}:${name}`;

/**
 * One cause of error. Identity is the id: correlation follows from sharing a source. Only the members of a group, made
 * by `correlatedErrors`, are correlated with each other; every other source is independent of all.
 */
export interface Source {
  /** Unique in an evaluation, such as `instrument:meter-1:gain`. */
  readonly id: string;
  /** What a person reads in the budget. */
  readonly name: string;
  readonly distribution: Distribution;
  /** Standard uncertainty in the unit of the quantity it acts on; for `t` the scale, as in JCGM 100 4.2.3. */
  readonly standardUncertainty: number;
  /** Infinity where the standard uncertainty itself is not in doubt. */
  readonly degreesOfFreedom: number;
  readonly scope: Scope;
  /** True where nobody measured or guaranteed it: common practice, no source. */
  readonly assumed: boolean;
  /** Ratio of the top to the base, 0 to 1; trapezoidal only. */
  readonly topToBase?: number;
  /** The instrument that owns it, if one does. */
  readonly instrument?: string;
  /** Its place in a correlated group, if it belongs to one. */
  readonly member?: { readonly group: SourceGroup; readonly index: number };
}

export interface SourceSpec {
  readonly id: string;
  readonly name: string;
  readonly distribution?: Distribution;
  readonly standardUncertainty?: number;
  readonly halfWidth?: number;
  readonly degreesOfFreedom?: number;
  readonly scope?: Scope;
  readonly assumed?: boolean;
  readonly topToBase?: number;
  readonly instrument?: string;
}

/** Standard uncertainty of a bounded shape over its half-width; JCGM 100 4.3.7 and 4.3.9, JCGM 101 6.4. */
function fromHalfWidth(spec: SourceSpec, halfWidth: number): number {
  switch (spec.distribution ?? 'rectangular') {
    case 'rectangular':
      return halfWidth / Math.sqrt(3);
    case 'triangular':
      return halfWidth / Math.sqrt(6);
    case 'trapezoidal': {
      const beta = spec.topToBase ?? 0.5;
      return halfWidth * Math.sqrt((1 + beta * beta) / 6);
    }
    case 'arcsine':
      return halfWidth / Math.SQRT2;
    default:
      return Number.NaN;
  }
}

/**
 * Makes an error source, checked once at the door. Give either `standardUncertainty` or, for a bounded shape,
 * `halfWidth`. A bounded shape given by its half-width is rectangular unless said otherwise; one given by its
 * standard uncertainty is normal, or t where degrees of freedom are finite.
 *
 * Throws `uncertainty-unknown` when no size is given or it is negative or not finite,
 * `degrees-of-freedom-bad` unless the degrees of freedom are positive, and `top-to-base-bad` unless the ratio of a
 * trapezoid lies between 0 and 1.
 *
 * @example
 * source({ id: 'scale:step', name: "the scale's 1 g steps", halfWidth: 0.5 }).standardUncertainty // => 0.2887
 * source({ id: 'x', name: 'unknown', standardUncertainty: NaN }) // throws 'uncertainty-unknown'
 */
export function source(spec: SourceSpec): Source {
  const byHalfWidth = spec.halfWidth !== undefined;
  const u = byHalfWidth ? fromHalfWidth(spec, spec.halfWidth as number) : spec.standardUncertainty;
  if (u === undefined || !Number.isFinite(u) || u < 0) {
    throw problem('uncertainty-unknown', { source: spec.name, got: String(u) });
  }
  const degreesOfFreedom = spec.degreesOfFreedom ?? Number.POSITIVE_INFINITY;
  if (!(degreesOfFreedom > 0)) {
    throw problem('degrees-of-freedom-bad', { source: spec.name, got: String(degreesOfFreedom) });
  }
  if (spec.topToBase !== undefined && !(spec.topToBase >= 0 && spec.topToBase <= 1)) {
    throw problem('top-to-base-bad', { source: spec.name, got: String(spec.topToBase) });
  }
  const unbounded = Number.isFinite(degreesOfFreedom) ? 't' : 'normal';
  return {
    id: spec.id,
    name: spec.name,
    distribution: spec.distribution ?? (byHalfWidth ? 'rectangular' : unbounded),
    standardUncertainty: u,
    degreesOfFreedom,
    scope: spec.scope ?? 'reading',
    assumed: spec.assumed ?? false,
    ...(spec.topToBase !== undefined ? { topToBase: spec.topToBase } : {}),
    ...(spec.instrument !== undefined ? { instrument: spec.instrument } : {}),
  };
}
