/** A whole number of lines of the file; only in the last piece the last line may lack its line feed. */
export interface Piece {
  readonly bytes: Uint8Array;
  readonly from: number;
  readonly to: number;
  /** Bytes of the file before `from`. */
  readonly offset: number;
  readonly isLast: boolean;
}
