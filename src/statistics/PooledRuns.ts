/** Lower and upper limit. */
export type Limits = readonly [number, number];

/** What is pooled: the runs of one setting. All values in one unit. */
export interface RunsToPool {
  readonly values: readonly number[];
  /** Standard uncertainty of each run without the shared part: what is fresh in every run. */
  readonly uncertainties: readonly number[];
  /** What all runs share: calibration of the instruments, mostly. Not to be contained in `uncertainties`. */
  readonly shared: { readonly u: number; readonly degreesOfFreedom: number };
  /** Coverage of the intervals, such as 0.95. */
  readonly coverage: number;
  /** Assumed standard deviation from run to run; needed with one or two runs, not used with more. */
  readonly assumedSpread?: number;
}

/** The pooled value of a setting. */
export interface PooledRuns {
  readonly n: number;
  readonly mean: number;
  /** Between-run standard deviation: the Paule–Mandel estimate, or the assumed one. */
  readonly betweenRunStandardDeviation: number;
  /** Hartung–Knapp variance of the mean without the shared part; null with one or two runs. */
  readonly varianceHK: number | null;
  /** Standard uncertainty of the mean, shared part included. */
  readonly standardUncertainty: number;
  /** The quick check U² = (t(n − 1))²·V_HK + (t(ν_s)·u_s)²; with one or two runs the same as `interval`. */
  readonly closedForm: { readonly expanded: number; readonly interval: Limits };
  /** Coverage interval of the mean. */
  readonly interval: Limits;
  /** Interval for the true value of one future run. */
  readonly prediction: { readonly interval: Limits };
  /** Half the width of `interval` over `standardUncertainty`. */
  readonly coverageFactor: number;
  /** Degrees of freedom for which a t distribution has that coverage factor; Infinity where it is the normal one or less. */
  readonly degreesOfFreedom: number;
  readonly degreesOfFreedomBasis: 'back-solved' | 'Welch–Satterthwaite';
  /** Weights of the runs in the mean, adding up to 1. */
  readonly weights: readonly number[];
  /** √(Q(0)/(n − 1)): scatter seen over scatter stated; null with one run or where a run has no uncertainty. */
  readonly birgeRatio: number | null;
  /** Whether the spread from run to run was seen in the runs or assumed. */
  readonly basis: 'seen' | 'assumed';
}
