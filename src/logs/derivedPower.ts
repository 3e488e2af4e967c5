import type { QuantityRole } from './types.js';

/** Power from voltage and current, its smallest step, and the sentence that goes with it. */
export interface DerivedPower {
  readonly powerW: Float64Array;
  readonly stepW: number | null;
  readonly warning: string;
}

/**
 * Where an export has voltage and current but no power: P = V·I·PF, or P = V·I with the warning that the load is
 * taken as resistive. The step follows from the steps of V and I at the largest values seen.
 */
export function derivedPower(
  values: ReadonlyMap<QuantityRole, Float64Array>,
  steps: ReadonlyMap<QuantityRole, number | null>,
): DerivedPower | null {
  const voltage = values.get('voltage');
  const current = values.get('current');
  if (!voltage || !current || values.has('power')) return null;
  const factor = values.get('powerFactor');
  const powerW = voltage.map((volts, i) => volts * current[i]! * (factor ? factor[i]! : 1));
  const warning = factor
    ? 'The export has no power column: power is voltage times current times power factor.'
    : 'The export has neither power nor power factor: power is voltage times current, which holds for a resistive load only.';
  const voltStep = steps.get('voltage');
  const ampStep = steps.get('current');
  const known = typeof voltStep === 'number' && typeof ampStep === 'number';
  const stepW = known ? Math.hypot(largest(current) * voltStep, largest(voltage) * ampStep) : null;
  return { powerW, stepW, warning };
}

function largest(values: Float64Array): number {
  return values.filter(Number.isFinite).reduce((most, value) => Math.max(most, Math.abs(value)), 0);
}
