import { digits } from '../words.js';

// A three-phase socket of 63 A at 400 V gives 44 kW.
const mostW = 50_000;

/** A power that no socket gives, in a sentence; `null` where it is none. */
export function rangeWords(watts: number): string | null {
  if (!(watts > mostW)) return null;
  return `The heater draws ${digits(watts / 1000)} kW, more than any socket gives: is the unit right?`;
}
