import type { CommonArgs } from '../Outcome.js';
import type { ReadArgs } from '../readOptions.js';

/** Options of `heatledger import`. */
export interface ImportArgs extends CommonArgs, ReadArgs {
  readonly file?: string | undefined;
  readonly run?: string | undefined;
  readonly look?: boolean | undefined;
  readonly as?: 'power' | 'temperature' | undefined;
  readonly disagreeing?: boolean | undefined;
  /** Name of a saved mapping to read with; `none` for no one, `list` to see which there are. */
  readonly like?: string | undefined;
  /** Name to save the mapping under. */
  readonly remember?: string | undefined;
  readonly replace?: boolean | undefined;
  readonly csv?: string | undefined;
  /** Limits of phases, from..to after the first reading. */
  readonly heating?: string | undefined;
  readonly coolDown?: string | undefined;
  /** Another export of the same heating, whose clock is held against this one. */
  readonly beside?: string | undefined;
}
