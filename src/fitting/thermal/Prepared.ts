import type { Timeline } from './Timeline.js';
import type { FitUse, Stretch } from './types.js';

/** Readings in blocks, ready for a model. All times in seconds after the first reading of the temperature. */
export interface Prepared {
  /** Readings that may be used, in order, the left out ones among them. */
  readonly timesS: Float64Array;
  readonly temperaturesK: Float64Array;
  /** Block of each reading; −1 where it is left out. */
  readonly blockOf: Int32Array;
  readonly blockS: number;
  /** For each block: 1/number of readings, their mean time and temperature. */
  readonly share: Float64Array;
  readonly blockTimesS: Float64Array;
  readonly observedK: Float64Array;
  /** How many block lengths each block lies after the one before; 0 for the first. */
  readonly gaps: Int32Array;
  readonly timeline: Timeline | null;
  /** First and last moment of heating, where there is a power. */
  readonly heating: Stretch | null;
  /** Mean power while heating, W. */
  readonly heatingPowerW: number | null;
  /** Smallest step between readings that differ, K. */
  readonly stepK: number;
  readonly used: FitUse;
}

/** What a model needs to see. */
export interface Needs {
  readonly power: boolean;
  readonly ambient: boolean;
  readonly parameters: number;
}
