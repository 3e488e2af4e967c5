import { exp } from './elementary.mjs';
import { HEATER } from './heater.mjs';

/**
 * What differs from run to run of one setting, drawn from normal numbers alone, so that a mirror image of a
 * draw (every normal number negated) is as likely as the draw itself: the expectation uses that.
 * @typedef {object} Conditions
 * @property {number} roomC
 * @property {number} humidity relative, 0 to 1
 * @property {number} waterKg filled in
 * @property {number} waterC when filled in
 * @property {number} bodyC of the rested heater
 * @property {number} targetC water temperature at which the hand switches off
 * @property {number} contact factor on the coupling
 * @property {number} draught factor on both losses
 * @property {number} lidFit factor on the vapour
 * @property {(timeS: number) => number} voltage mains voltage at seconds after switch-on
 */

const MAINS_GRID_S = 30;
/** The grid begins this long before switch-on: earlier than any log. */
const MAINS_LEAD_S = 600;

/**
 * @param {() => number} normal
 * @param {number} scatter 1 as it is, 0 for runs with the same contact, draught and lid
 * @returns {Conditions}
 */
export function drawConditions(normal, scatter) {
  const roomC = 17 + 0.3 * normal();
  return {
    roomC,
    humidity: 0.5 + 0.04 * normal(),
    waterKg: 6 + 0.012 * normal(),
    waterC: 12 + 0.3 * normal(),
    bodyC: roomC + 0.2 * normal(),
    targetC: 51 + 0.25 * normal(),
    contact: 1 + 0.03 * scatter * normal(),
    draught: 1 + 0.025 * scatter * normal(),
    lidFit: 1 + 0.1 * scatter * normal(),
    voltage: mainsVoltage(normal),
  };
}

/**
 * Mains voltage: an offset for the run and a slow wander (first-order, 15 minutes), together never more than 1 %
 * off the nominal. Made on a fixed grid, so that it does not depend on the step of the model.
 */
function mainsVoltage(normal) {
  const offset = 0.004 * normal();
  const keep = exp(-MAINS_GRID_S / 900);
  const kick = 0.003 * Math.sqrt(1 - keep * keep);
  let wander = 0.003 * normal();
  /** @type {number[]} */
  const grid = [];
  const at = (index) => {
    while (grid.length <= index) {
      grid.push(HEATER.nominalVoltage * (1 + Math.max(-0.01, Math.min(0.01, offset + wander))));
      wander = keep * wander + kick * normal();
    }
    return grid[index];
  };
  return (timeS) => {
    const place = Math.max(0, (timeS + MAINS_LEAD_S) / MAINS_GRID_S);
    const index = Math.floor(place);
    const low = at(index);
    return low + (at(index + 1) - low) * (place - index);
  };
}
