import type { ColumnRole, Log, ReadOptions } from '../../../src/logs/index.js';

/** How a file of the corpus reads, written by hand from the file. */
export interface Expected {
  readonly options?: ReadOptions;
  /** Delimiter, decimal sign, encoding, header line, first data line. */
  readonly layout: readonly [string, string, string, number | null, number];
  readonly time: readonly [form: string, zone: string | null, start: string | null];
  readonly timesS: readonly number[];
  readonly roles: readonly ColumnRole[];
  readonly values: Partial<Record<keyof Log, readonly number[]>>;
  readonly warnings?: readonly RegExp[];
}

/** 0 °C in kelvin. */
export const C = 273.15;
export const elapsed = ['elapsed-s', null, null] as const;
