import { drawConditions } from './conditions.mjs';
import { HEATER } from './heater.mjs';
import { createModel } from './model.mjs';
import { latentHeat, saturationPressure, waterHeatCapacity } from './water.mjs';

/** Share of the heat of the body that gets into the load: G/(G + UA_b). */
export const kappaOf = ({ contact, draught }) =>
  (HEATER.coupling * contact) / (HEATER.coupling * contact + HEATER.bodyLoss * draught);

/** Loss to the room without steam, W/K, body and load together when the body only follows. */
export const lossOf = (conditions) =>
  HEATER.loadLoss * conditions.draught + kappaOf(conditions) * HEATER.bodyLoss * conditions.draught;

/** What of the body's heat capacity counts with the load, J/K: it follows it by κ, and of its heat κ gets there. */
export const bodyOf = (conditions) => kappaOf(conditions) ** 2 * HEATER.bodyHeatCapacity;

/** Without its lid the vessel gives off this many times the steam. */
const OPEN_FACTOR = 3;

/** @param {() => number} normal @param {object} changes */
export const conditionsOf = (normal, changes) => ({ ...drawConditions(normal, 1), ...changes });

const entry = (timeS, { loadC, bodyC, waterKg, inputJ }) => ({ timeS, loadC, bodyC, waterKg, inputJ });

/** Columns of a course for the probe and the scale. */
export const columns = (rows) => ({
  timeS: rows.map((row) => row.timeS),
  loadC: rows.map((row) => row.loadC),
  inputJ: rows.map((row) => row.inputJ),
  waterKg: rows.map((row) => row.waterKg),
});

/**
 * A warm vessel on the heater that is off. The body is as warm as it is while it only follows the load.
 * @param {import('./conditions.mjs').Conditions} conditions
 * @param {{ startC: number, open: boolean, beforeS: number, lengthS: number }} how
 */
export function coolDownCourse(conditions, { startC, open, beforeS, lengthS }) {
  const bodyC = conditions.roomC + kappaOf(conditions) * (startC - conditions.roomC);
  const lidFit = conditions.lidFit * (open ? OPEN_FACTOR : 1);
  const model = createModel({ ...conditions, waterC: startC, bodyC, lidFit }, 0);
  const rows = [entry(-beforeS, model.snapshot())];
  for (let timeS = -beforeS; timeS < lengthS; timeS++) {
    model.step(timeS, 1, false);
    rows.push(entry(timeS + 1, model.snapshot()));
  }
  return rows;
}

/**
 * A thermostat that switches at ±0.3 K; `heldS` begins when it has been held for half an hour.
 * @param {import('./conditions.mjs').Conditions} conditions
 * @param {{ heldC: number, powerW: number, lengthS: number }} how
 */
export function holdCourse(conditions, { heldC, powerW, lengthS }) {
  const band = 0.3;
  const model = createModel({ ...conditions, waterC: heldC - band, bodyC: heldC }, powerW);
  const beforeS = 1800;
  const rows = [];
  let on = true;
  for (let timeS = -beforeS; timeS <= lengthS; timeS++) {
    const state = model.snapshot();
    if (state.loadC > heldC + band) on = false;
    if (state.loadC < heldC - band) on = true;
    rows.push({ ...entry(timeS, state), powerW: on ? model.powerAt(timeS, true) : HEATER.standbyW });
    model.step(timeS, 1, on);
  }
  return rows;
}

/**
 * Water at the boil: switched off at 0, weighed, switched on at `onS`, off at `offS`, weighed again. Below the boiling
 * point it gives off steam as an open vessel does; at it, all heat that is left over. Steps of half a second.
 * @param {import('./conditions.mjs').Conditions} conditions
 * @param {{ boilingC: number, powerW: number, onS: number, offS: number, lastS: number }} how
 */
export function boilCourse(conditions, { boilingC, powerW, onS, offS, lastS }) {
  const G = HEATER.coupling * conditions.contact;
  const lost = { body: HEATER.bodyLoss * conditions.draught, load: HEATER.loadLoss * conditions.draught };
  const g = HEATER.vapour * conditions.lidFit * OPEN_FACTOR;
  const latent = latentHeat(boilingC);
  const pot = HEATER.potKg * HEATER.potHeatCapacity * HEATER.wettedShare;
  const roomPa = conditions.humidity * saturationPressure(conditions.roomC);
  const dt = 0.5;
  let loadC = boilingC;
  let bodyC = (powerW + G * boilingC + lost.body * conditions.roomC) / (G + lost.body);
  let waterKg = conditions.waterKg;
  let inputJ = 0;
  const sums = { steamJ: 0, roomJ: 0 };
  const rows = [];
  for (let timeS = 0; timeS <= lastS; timeS += dt) {
    if (Number.isInteger(timeS)) rows.push({ timeS, loadC, bodyC, waterKg, inputJ, ...sums });
    const ratio = conditions.voltage(timeS) / HEATER.nominalVoltage;
    const power = timeS >= onS && timeS < offS ? powerW * ratio * ratio : 0;
    const across = G * (bodyC - loadC);
    const bodyRoom = lost.body * (bodyC - conditions.roomC);
    const loadRoom = lost.load * (loadC - conditions.roomC);
    const heat = across - loadRoom;
    let steam = g * (saturationPressure(Math.min(loadC, boilingC)) - roomPa);
    if (loadC >= boilingC && heat > steam * latent) steam = heat / latent;
    bodyC += ((power - across - bodyRoom) / HEATER.bodyHeatCapacity) * dt;
    loadC = Math.min(
      boilingC,
      loadC + ((heat - steam * latent) / (waterKg * waterHeatCapacity(95) + pot)) * dt,
    );
    waterKg -= steam * dt;
    inputJ += power * dt;
    sums.steamJ += steam * latent * dt;
    sums.roomJ += lossOf(conditions) * (loadC - conditions.roomC) * dt;
  }
  return rows;
}
