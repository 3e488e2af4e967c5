import type { CommonArgs } from '../Outcome.js';

/** Options of `heatledger test`. */
export interface TestArgs extends CommonArgs {
  readonly protocol?: string;
  readonly heater?: string;
  readonly setting?: string;
  readonly hand?: string;
  readonly resume?: string;
  readonly again?: boolean;
  readonly answers?: string;
}
