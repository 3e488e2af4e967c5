/**
 * The times at which something is known, merged: between two of them power and ambient are straight lines, so that a
 * step of the model is exact. Entry i is the interval that ends at node i + 1.
 */
export interface Timeline {
  readonly intervals: number;
  readonly widthS: Float64Array;
  /** Power at the beginning and at the end of each interval, W; null where the model has none. */
  readonly powerFromW: Float64Array | null;
  readonly powerToW: Float64Array | null;
  /** Ambient less its first value, K; null where it is constant. */
  readonly ambientFromK: Float64Array | null;
  readonly ambientToK: Float64Array | null;
  /** First value of the ambient, K: the zero of the model's temperatures. */
  readonly referenceK: number;
  /** Block of the reading at the end of each interval; −1 where there is none, or it is left out. */
  readonly block: Int32Array;
  /** Index of that reading, −1 where there is none; null where every node is a reading: it is one more than the interval's. */
  readonly reading: Int32Array | null;
  /** Block of the reading at the very beginning. */
  readonly firstBlock: number;
}
