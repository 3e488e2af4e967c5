import { problem } from '../../errors/index.js';
import type { CommonArgs } from '../Outcome.js';

/** Options of `heatledger plan`. */
export interface PlanArgs extends CommonArgs {
  readonly heater?: string;
  readonly setting?: string;
  readonly protocol?: string;
  readonly water?: string;
  readonly mostWater?: string;
  readonly start?: string;
  readonly rise?: string;
  readonly power?: string;
  readonly efficiency?: string;
  readonly runs?: string;
  readonly target?: string;
  readonly seed?: string;
  readonly day?: boolean;
  readonly heaters?: string;
  readonly meters?: string;
  readonly hours?: string;
  readonly cool?: string;
}

/** A whole number of an option. */
export function count(value: string | undefined, key: string, fallback: number, most = 1000): number {
  if (value === undefined) return fallback;
  const number = Number(value);
  if (!Number.isInteger(number) || number < 1 || number > most) {
    throw problem(
      'option-bad',
      { message: `${key} takes a whole number from 1 to ${most}; this was "${value}".` },
      { key },
    );
  }
  return number;
}
