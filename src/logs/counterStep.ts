/** What one step of an energy counter adds, and whether it ran over, was set to zero, or fell for no such reason. */
export interface CounterStep {
  readonly addJ: number;
  readonly kind: 'rise' | 'wrap' | 'reset' | 'fall';
}

const rise = 'rise' as const;

/**
 * From one reading of a counter to the next. A counter of n digits runs over at a power of ten of its own unit: it
 * stood within 1 % below and starts again within 1 % above zero. One that falls below half was set to zero; what
 * it counted just before is lost.
 */
export function counterStep(fromJ: number, toJ: number, unitJ: number): CounterStep {
  if (toJ >= fromJ) return { addJ: toJ - fromJ, kind: rise };
  if (fromJ > 0) {
    const full = 10 ** Math.ceil(Math.log10(fromJ / unitJ)) * unitJ;
    if (fromJ >= 0.99 * full && toJ >= 0 && toJ <= 0.01 * full)
      return { addJ: full - fromJ + toJ, kind: 'wrap' };
  }
  return toJ < fromJ / 2 ? { addJ: toJ, kind: 'reset' } : { addJ: 0, kind: 'fall' };
}
