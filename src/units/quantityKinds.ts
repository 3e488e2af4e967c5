/**
 * The kinds of quantity a person may be asked for, each with its article for sentences. SI units inside: kg, K, K,
 * J, W, Pa, m, s, J/K, J/(kg K), 1, V, A, C, m³, W/K, Ω, in this order.
 */
export const kindPhrases = {
  mass: 'a mass',
  temperature: 'a temperature',
  temperatureDifference: 'a temperature difference',
  energy: 'an energy',
  power: 'a power',
  pressure: 'a pressure',
  length: 'a length',
  time: 'a time',
  heatCapacity: 'a heat capacity',
  specificHeat: 'a specific heat capacity',
  ratio: 'a ratio',
  voltage: 'a voltage',
  current: 'a current',
  charge: 'an electric charge',
  volume: 'a volume',
  conductance: 'a heat conductance',
  resistance: 'a resistance',
} as const;

export type QuantityKind = keyof typeof kindPhrases;

/** All kinds, in the order of the table above. */
export const quantityKinds = Object.keys(kindPhrases) as readonly QuantityKind[];

/** What is asked for: the kind of quantity, and the unit that a bare number takes. */
export interface AskedQuantity {
  readonly kind: QuantityKind;
  /** Any spelling of a unit of this kind. */
  readonly unit: string;
}

/** A quantity as a person typed it, and what it means. */
export interface TypedQuantity {
  readonly kind: QuantityKind;
  /** The value in the SI unit of the kind; absolute temperatures in kelvin. */
  readonly si: number;
  /** The value in `unit`. */
  readonly value: number;
  /** Symbol of the unit that was typed or assumed, such as `g`, `°C`, `kWh`, `%`. */
  readonly unit: string;
  /** What was typed, without the blanks around it. */
  readonly typed: string;
}
