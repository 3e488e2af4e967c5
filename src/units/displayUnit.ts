import type { QuantityKind } from './quantityKinds.js';

/** Which everyday units results are shown in. */
export type UnitSystem = 'si' | 'us';

const displayUnits: Readonly<Record<QuantityKind, readonly [si: string, us: string]>> = {
  mass: ['kg', 'lb'],
  temperature: ['°C', '°F'],
  temperatureDifference: ['K', '°F'],
  energy: ['kWh', 'kWh'],
  power: ['W', 'W'],
  pressure: ['hPa', 'inHg'],
  length: ['m', 'ft'],
  time: ['min', 'min'],
  heatCapacity: ['kJ/K', 'Btu/°F'],
  specificHeat: ['kJ/(kg K)', 'Btu/(lb °F)'],
  ratio: ['%', '%'],
  voltage: ['V', 'V'],
  current: ['A', 'A'],
  charge: ['Ah', 'Ah'],
  volume: ['L', 'US gal'],
  conductance: ['W/K', 'Btu/(h °F)'],
  resistance: ['Ω', 'Ω'],
};

/**
 * The unit in which a kind of quantity is shown and asked for, in everyday metric or in US customary units.
 *
 * @example
 * displayUnit('mass', 'us') // => "lb"
 */
export function displayUnit(kind: QuantityKind, system: UnitSystem): string {
  return displayUnits[kind][system === 'si' ? 0 : 1];
}
