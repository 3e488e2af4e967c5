/** Rows of a log in time order: SI arrays of equal length. A missing cell is NaN, a column that is not there `null`. */
export interface Rows {
  /** Seconds after the first row of the log. */
  readonly timesS: Float64Array;
  readonly powerW: Float64Array | null;
  readonly energyJ: Float64Array | null;
  readonly voltageV: Float64Array | null;
  readonly currentA: Float64Array | null;
  readonly powerFactor: Float64Array | null;
  readonly temperatureK: Float64Array | null;
}
