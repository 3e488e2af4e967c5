import type { Protocol } from '../../protocols/index.js';
import { methodOf } from './methodOf.js';

/**
 * Whether runs of a protocol are pooled to an efficiency. Cool-downs, holds, boil-offs and heatings at several fills
 * are not: they are evaluated by methods of their own.
 *
 * @example
 * isPooled({ evaluates: 'efficiency' }) // => true
 * isPooled({ evaluates: 'efficiency', fills: ['third', 'full'] }) // => false
 * isPooled({ evaluates: 'hold' }) // => false
 */
export function isPooled(protocol: Pick<Protocol, 'fills' | 'evaluates'>): boolean {
  return methodOf(protocol) === null;
}
