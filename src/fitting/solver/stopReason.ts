import type { StopCode } from '../FitResult.js';

const texts: Readonly<Record<StopCode, string>> = {
  'one-step': 'solved in one step',
  converged: 'no change of the parameters explains more of the data',
  rounding: 'no change of the parameters explains more of the data, as far as double precision can tell',
  exact: 'the model meets the data to the last digit',
  undetermined: 'the data do not determine all parameters',
  'no-progress': 'no step from here makes the fit better, yet it is no optimum',
  iterations: 'the most iterations allowed were used up',
  'model-undefined': 'the derivatives of the model are not finite here',
};

/** What stopped a fit, in words. */
export function stopReason(code: StopCode, detail: string | null): string {
  return detail === null ? texts[code] : `${texts[code]}: ${detail}`;
}

/** Whether a fit that stopped so has found an optimum. */
export function hasConverged(code: StopCode): boolean {
  return code === 'one-step' || code === 'converged' || code === 'rounding' || code === 'exact';
}
