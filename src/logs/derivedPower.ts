import type { QuantityRole } from './types.js';

type Values = ReadonlyMap<QuantityRole, Float64Array>;

/** Whether power must be computed: voltage and current are there, power is not. */
export function needsDerivedPower(roles: { has(role: QuantityRole): boolean }): boolean {
  return roles.has('voltage') && roles.has('current') && !roles.has('power');
}

/** Power from voltage and current, and power factor where there is one: P = V·I·PF. */
export function derivedPowerW(values: Values): Float64Array {
  const current = values.get('current')!;
  const factor = values.get('powerFactor');
  return values.get('voltage')!.map((volts, i) => volts * current[i]! * (factor ? factor[i]! : 1));
}

/** The step of such a power, from the steps of voltage and current at the largest values seen. */
export function derivedStepW(
  largest: { readonly voltageV: number; readonly currentA: number },
  steps: ReadonlyMap<QuantityRole, number | null>,
): number | null {
  const voltStep = steps.get('voltage');
  const ampStep = steps.get('current');
  if (typeof voltStep !== 'number' || typeof ampStep !== 'number') return null;
  return Math.hypot(largest.currentA * voltStep, largest.voltageV * ampStep);
}

/** The sentence that goes with it: without a power factor the load is taken as resistive. */
export function derivedWarning(roles: { has(role: QuantityRole): boolean }): string {
  return roles.has('powerFactor')
    ? 'The export has no power column: power is voltage times current times power factor.'
    : 'The export has neither power nor power factor: power is voltage times current, which holds for a resistive load only.';
}

/** The largest size of some values, missing ones left out. */
export function largestOf(values: Float64Array): number {
  let largest = 0;
  for (const value of values)
    if (Math.abs(value) > largest && Number.isFinite(value)) largest = Math.abs(value);
  return largest;
}
