import type { CommonArgs } from '../Outcome.js';

export const modelWords = ['approach', 'cool-down', 'one-node', 'two-nodes'] as const;
export type ModelWord = (typeof modelWords)[number];

export interface FitArgs extends CommonArgs {
  readonly run?: string;
  readonly model?: ModelWord;
  readonly from?: string;
  readonly to?: string;
  /** By its own name: only so it stays a list where it is given once. */
  readonly 'leave-out'?: readonly string[];
  readonly block?: string;
  readonly target?: string;
  readonly csv?: string;
}
