import type { Protocol } from '../../protocols/index.js';
import type { Method } from './types.js';

/** The method of a protocol; null where its runs are pooled to an efficiency. */
export function methodOf({ fills, evaluates }: Pick<Protocol, 'fills' | 'evaluates'>): Method | null {
  if (fills !== undefined) return 'two-fills';
  return evaluates === 'efficiency' ? null : evaluates;
}
