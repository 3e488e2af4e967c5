/**
 * The invented heater: a heater body that carries a removable stainless insert pot. The numbers are made up and belong
 * to no product; they were chosen so that about 60 to 80 % of the energy reaches the water.
 */
export const HEATER = Object.freeze({
  id: 'vat-warmer',
  /** Heat capacity of the body, J/K. */
  bodyHeatCapacity: 1150,
  /** Body to load, W/K, before the run's contact factor. */
  coupling: 12.5,
  /** Body to room, W/K, before the run's draught factor. */
  bodyLoss: 1.55,
  /** Load to room, dry part, W/K, before the run's draught factor. */
  loadLoss: 1.25,
  /** Steam through the gap of the lid, kg/(s Pa), before the run's lid factor. */
  vapour: 6.5e-10,
  /** Empty insert pot, kg. */
  potKg: 1.873,
  /** Heat capacity of stainless steel, J/(kg K), from memory. */
  potHeatCapacity: 500,
  /** Share of the pot that warms with the water. */
  wettedShare: 0.92,
  /** Drawn from the socket while switched off, W; its heat does not reach the body. */
  standbyW: 0.4,
  nominalVoltage: 230,
});

/**
 * One setting of the heater.
 * @typedef {object} Setting
 * @property {string} id
 * @property {number} powerW at nominal voltage
 * @property {'semicolon' | 'comma' | 'tab'} dialect of the meter's export
 */

/** @type {readonly Setting[]} */
export const SETTINGS = Object.freeze([
  { id: 'gentle', powerW: 302, dialect: 'semicolon' },
  { id: 'medium', powerW: 598, dialect: 'comma' },
  { id: 'full', powerW: 903, dialect: 'tab' },
]);
