import type { TimeForm } from './types.js';

/** The times of the rows in seconds from a common origin, in the order of the file. */
export interface ResolvedTimes {
  readonly seconds: Float64Array;
  /** Epoch milliseconds of the origin; `null` where the clock isn't known. */
  readonly originUtcMs: number | null;
  readonly form: TimeForm;
  readonly zone: string | null;
  readonly evidence: string;
}
