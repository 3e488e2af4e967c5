import type { Unit } from './findUnit.js';

/** Absolute temperatures with a shifted zero are reckoned from here: 0 °C and 32 °F. SI brochure, 9th ed., 2.3.1. */
const ICE_POINT_K = 273.15;

/**
 * SI value of a value in a unit: `value × numerator / denominator`, multiplied before it is divided so that decimals
 * stay exact; for a temperature with a shifted zero reckoned from 273.15 K.
 */
export function toSi(value: number, unit: Unit): number {
  if (unit.atIcePoint === undefined) return (value * unit.numerator) / unit.denominator;
  return ((value - unit.atIcePoint) * unit.numerator) / unit.denominator + ICE_POINT_K;
}

/** Value in a unit of an SI value; the inverse of `toSi`. */
export function fromSi(si: number, unit: Unit): number {
  if (unit.atIcePoint === undefined) return (si * unit.denominator) / unit.numerator;
  return ((si - ICE_POINT_K) * unit.denominator) / unit.numerator + unit.atIcePoint;
}
