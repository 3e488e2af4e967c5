import { roundToUncertainty } from '../../uncertainty/index.js';
import type { MethodValue } from './types.js';

/** Half the interval at its coverage. */
export const halfOf = ({ interval }: MethodValue): number => (interval[1] - interval[0]) / 2;

/** A value with its expanded uncertainty in a unit: "2.63 ± 0.21 W/K". `per` is what one of the unit is in SI. */
export function valueWords(value: number, half: number, unit: string, per = 1): string {
  const rounded = roundToUncertainty(value / per, half / per);
  return `${rounded.value} ± ${rounded.uncertainty} ${unit}`;
}

/** "one run", "3 runs". */
export const runsWords = (count: number): string => (count === 1 ? 'one run' : `${count} runs`);
