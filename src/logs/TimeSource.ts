import type { ExportUnit } from './exportUnits.js';

/**
 * Where the times stand: one column of numbers, a clock column with or without a date column beside it, or nowhere,
 * so that rows of a stated interval are counted (`index` is -1 then).
 */
export interface TimeSource {
  readonly form: 'number' | 'clock' | 'count';
  readonly index: number;
  readonly dateIndex: number | null;
  readonly header: string;
  /** The unit of elapsed time, where header or option has one. */
  readonly unit: ExportUnit | null;
  /** The most decimals that the first numbers of the column show. */
  readonly decimals: number;
}
