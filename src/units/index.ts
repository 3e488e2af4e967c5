/**
 * units: reads a quantity that a person typed ("6.2 lb", "33 °F", "0,72 kWh", "2104+2098 g") into SI and writes
 * SI values back in everyday units. The table of units is our own and exact. Absolute temperatures and temperature
 * differences are two kinds of quantity, never mixed. Imports only errors.
 */
export { displayUnit, type UnitSystem } from './displayUnit.js';
export { formatDuration } from './formatDuration.js';
export { formatQuantity } from './formatQuantity.js';
export { fromUnit } from './fromUnit.js';
export { type AskedQuantity, type QuantityKind, quantityKinds, type TypedQuantity } from './quantityKinds.js';
export { readingsOf } from './readingsOf.js';
export { readQuantity } from './readQuantity.js';
export { toUnit } from './toUnit.js';
export { unitsOf } from './unitsOf.js';
