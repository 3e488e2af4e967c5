/** What the fast road does with a column. */
export const columnKinds = { skip: 0, value: 1, timeNumber: 2, clock: 3, date: 4 } as const;

/** What the fast road must know of an export; plain data, so that it can be sent to another thread. */
export interface FastSpec {
  readonly delimiter: number;
  readonly decimal: number;
  /** One of `columnKinds` for each column. */
  readonly kinds: readonly number[];
  /** For a value column the number of its value, else -1. */
  readonly slots: readonly number[];
  /** For each value: `si = cell · factor + offset`. */
  readonly factors: readonly number[];
  readonly offsets: readonly number[];
  /** The least SI value that makes sense, for each value. */
  readonly least: readonly number[];
  /** What the first row settled for clock times; `null` for numbers. */
  readonly clock: { readonly parts: number; readonly dated: boolean; readonly zoned: boolean } | null;
}

/** From this row on the date and the offset are these. */
export interface KeyChange {
  readonly row: number;
  readonly date: string | null;
  readonly offset: string | null;
}
