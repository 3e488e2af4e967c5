import { HEATER } from './heater.mjs';
import { latentHeat, saturationPressure, waterEnthalpy, waterHeatCapacity } from './water.mjs';

/** Places in the state vector. The last four only count: what came in, what each way out took. */
const BODY = 0;
const ENTHALPY = 1;
const MASS = 2;
const INPUT = 3;
const BODY_LOSS = 4;
const LOAD_LOSS = 5;
const VAPOUR = 6;
const SIZE = 7;

const POT = HEATER.potKg * HEATER.potHeatCapacity * HEATER.wettedShare;

/**
 * The two-node model. Body: C_b·dT_b/dt = P − G·(T_b − T) − UA_b·(T_b − Ta). Load (water and pot), kept as
 * enthalpy H = m·h(T) + C_p·T: dH/dt = G·(T_b − T) − UA·(T − Ta) − w·(h(T) + h_fg(T)) and dm/dt = −w with
 * w = g·(p_sat(T) − φ·p_sat(Ta)).
 * Runge–Kutta of fourth order. Every flow is also summed in the state; the scheme is linear in the flows, so the
 * energy balance closes to rounding whatever the step.
 *
 * @param {import('./conditions.mjs').Conditions} conditions
 * @param {number} powerW at nominal voltage
 */
export function createModel(conditions, powerW) {
  const coupling = HEATER.coupling * conditions.contact;
  const bodyLoss = HEATER.bodyLoss * conditions.draught;
  const loadLoss = HEATER.loadLoss * conditions.draught;
  const vapour = HEATER.vapour * conditions.lidFit;
  const { roomC } = conditions;
  const roomVapour = conditions.humidity * saturationPressure(roomC);
  const state = new Float64Array(SIZE);
  const trial = new Float64Array(SIZE);
  const slopes = [0, 1, 2, 3].map(() => new Float64Array(SIZE));
  let loadC = conditions.waterC;
  state[BODY] = conditions.bodyC;
  state[MASS] = conditions.waterKg;
  state[ENTHALPY] = conditions.waterKg * waterEnthalpy(loadC) + POT * loadC;

  /** Newton's method from the last temperature. The curve is so straight that a move of 1e-5 K leaves 1e-13 K. */
  const temperature = (enthalpy, mass) => {
    let t = loadC;
    for (let i = 0; i < 8; i++) {
      const change = (enthalpy - mass * waterEnthalpy(t) - POT * t) / (mass * waterHeatCapacity(t) + POT);
      t += change;
      if (Math.abs(change) < 1e-5) break;
    }
    return t;
  };

  const slope = (power, s, out) => {
    const t = temperature(s[ENTHALPY], s[MASS]);
    const across = coupling * (s[BODY] - t);
    const steam = vapour * (saturationPressure(t) - roomVapour);
    out[INPUT] = power;
    out[BODY_LOSS] = bodyLoss * (s[BODY] - roomC);
    out[LOAD_LOSS] = loadLoss * (t - roomC);
    out[VAPOUR] = steam * (waterEnthalpy(t) + latentHeat(t));
    out[BODY] = (power - across - out[BODY_LOSS]) / HEATER.bodyHeatCapacity;
    out[ENTHALPY] = across - out[LOAD_LOSS] - out[VAPOUR];
    out[MASS] = -steam;
  };

  const powerAt = (timeS, on) => {
    if (!on) return 0;
    const ratio = conditions.voltage(timeS) / HEATER.nominalVoltage;
    return powerW * ratio * ratio;
  };

  const moved = (from, slopeOf, by) => {
    for (let i = 0; i < SIZE; i++) trial[i] = from[i] + by * slopeOf[i];
    return trial;
  };

  const step = (timeS, dt, on) => {
    const [k1, k2, k3, k4] = slopes;
    const middle = powerAt(timeS + dt / 2, on);
    slope(powerAt(timeS, on), state, k1);
    slope(middle, moved(state, k1, dt / 2), k2);
    slope(middle, moved(state, k2, dt / 2), k3);
    slope(powerAt(timeS + dt, on), moved(state, k3, dt), k4);
    for (let i = 0; i < SIZE; i++) state[i] += (dt / 6) * (k1[i] + 2 * (k2[i] + k3[i]) + k4[i]);
    loadC = temperature(state[ENTHALPY], state[MASS]);
  };

  return {
    step,
    powerAt,
    snapshot: () => snapshotOf(loadC, state),
    /** Remembers the state; the function it returns goes back to it. */
    remember: () => {
      const kept = state.slice();
      const keptC = loadC;
      return () => {
        state.set(kept);
        loadC = keptC;
      };
    },
  };
}

/**
 * The state as a plain record: temperatures, water left, and the sums since the start.
 * @typedef {{ loadC: number, bodyC: number, waterKg: number, inputJ: number, bodyLossJ: number, loadLossJ: number, vapourJ: number }} Snapshot
 */

/**
 * @param {number} loadC
 * @param {Float64Array} state
 * @returns {Snapshot}
 */
function snapshotOf(loadC, state) {
  return {
    loadC,
    bodyC: state[BODY],
    waterKg: state[MASS],
    inputJ: state[INPUT],
    bodyLossJ: state[BODY_LOSS],
    loadLossJ: state[LOAD_LOSS],
    vapourJ: state[VAPOUR],
  };
}
