import type { Problem } from '../Problem.js';
import type { Needs, Prepared } from './Prepared.js';
import type { FittedQuantity, ThermalFitOptions, ThermalModelName } from './types.js';

/** What a parameter of a model is. */
export interface ParameterMeaning {
  readonly name: string;
  readonly meaning: string;
  readonly unit: string;
}

/** A quantity that follows from the parameters; the gradient is by the parameters. */
export interface Derived extends ParameterMeaning {
  readonly value: number | null;
  readonly gradient: readonly number[];
  readonly reason?: string;
  readonly conditionalOn?: string;
}

/** A model of a load's temperature: its equations over prepared data, where to begin, and what follows from it. */
export interface ThermalModel {
  readonly name: ThermalModelName;
  readonly parameters: readonly ParameterMeaning[];
  readonly needs: Needs;
  /** The block means that the model predicts, as a least-squares problem. */
  problem(data: Prepared): Problem;
  start(data: Prepared): readonly number[];
  lower(data: Prepared): readonly number[];
  upper(data: Prepared): readonly number[];
  /**
   * Places of the parameters in which the model is linear: T₀, which shifts with the room, and the rate that the power is
   * multiplied by. null where there is no such shortcut, or no such parameter.
   */
  readonly linear: { readonly start: number; readonly heating: number | null } | null;
  /** The same with the vapour's heat multiplied by a factor; left out where there is none. */
  readonly withVapour?: (factor: number) => ThermalModel;
  derived(parameters: readonly number[], data: Prepared, options: ThermalFitOptions): readonly Derived[];
}

/** Whether a fitted quantity has both value and uncertainty. */
export function isKnown(
  quantity: FittedQuantity | undefined,
): quantity is FittedQuantity & { value: number; standardUncertainty: number } {
  return quantity !== undefined && quantity.value !== null && quantity.standardUncertainty !== null;
}
