import type { UnitRow } from './unitRow.js';

/** The electrical rows of the unit table: decimal multiples of the SI brochure, and the ampere hour of 3600 C. */
export const electricalUnits = {
  voltage: [
    ['V', 1, 1, 'volt|volts'],
    ['µV', 1, 1e6, 'uV|microvolt|microvolts'],
    ['mV', 1, 1000, 'millivolt|millivolts'],
    ['kV', 1000, 1, 'kilovolt|kilovolts'],
  ],
  current: [
    ['A', 1, 1, 'amp|amps|ampere|amperes'],
    ['µA', 1, 1e6, 'uA|microamp|microamps'],
    ['mA', 1, 1000, 'milliamp|milliamps'],
    ['kA', 1000, 1, 'kiloamp|kiloamps'],
  ],
  charge: [
    ['C', 1, 1, 'coulomb|coulombs|A s|As'],
    ['Ah', 3600, 1, 'A h|amp hour|amp hours|ampere hour|ampere hours|amp-hour|amp-hours'],
    ['mAh', 18, 5, 'mA h|milliamp hour|milliamp hours'],
  ],
  resistance: [
    ['Ω', 1, 1, 'ohm|ohms'],
    ['mΩ', 1, 1000, 'mohm|milliohm|milliohms'],
    ['kΩ', 1000, 1, 'kohm|kiloohm|kiloohms|kilohm|kilohms'],
    ['MΩ', 1e6, 1, 'Mohm|megaohm|megohm|megohms'],
  ],
} as const satisfies Record<string, readonly UnitRow[]>;
