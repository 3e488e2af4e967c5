/**
 * A heated load as it truly is: heater body and load, each with its own heat capacity, integrated by Runge and Kutta's
 * fourth order in short steps, then read by instruments with errors. Shares nothing with the program under test.
 */
import { Draw } from '../coverage/random.mjs';

/** The vat warmer of the benches. J/K, W/K, W. */
export const vat = {
  kappa: 0.93,
  bodyJPerK: 900,
  vesselJPerK: 620,
  couplingWPerK: 18,
  lossWPerK: 1.6,
  powerW: 900,
  specificJPerKgK: 4180,
};

const stepS = 1;

/**
 * Temperatures of the load at the times asked for, and the power then.
 * @param {{ loadJPerK: number, bodyJPerK: number, couplingWPerK: number, lossWPerK: number, kappa: number, powerW: number,
 *   startK: number, ambientK: (t: number) => number, onS: number, offS: number, endS: number, everyS: number }} it
 */
export function heated(it) {
  const timesS = [];
  const loadK = [];
  const bodyK = [];
  let load = it.startK;
  let body = it.startK;
  const edges = [it.onS, it.offS];
  const slope = (
    /** @type {number} */ t,
    /** @type {number} */ watts,
    /** @type {number} */ b,
    /** @type {number} */ l,
  ) => {
    const flow = it.couplingWPerK * (b - l);
    return [
      (it.kappa * watts - flow) / it.bodyJPerK,
      (flow - it.lossWPerK * (l - it.ambientK(t))) / it.loadJPerK,
    ];
  };
  const advance = (/** @type {number} */ t, /** @type {number} */ h) => {
    const watts = t + h / 2 > it.onS && t + h / 2 < it.offS ? it.powerW : 0;
    const a = slope(t, watts, body, load);
    const b = slope(t + h / 2, watts, body + (h / 2) * a[0], load + (h / 2) * a[1]);
    const c = slope(t + h / 2, watts, body + (h / 2) * b[0], load + (h / 2) * b[1]);
    const d = slope(t + h, watts, body + h * c[0], load + h * c[1]);
    body += (h / 6) * (a[0] + 2 * b[0] + 2 * c[0] + d[0]);
    load += (h / 6) * (a[1] + 2 * b[1] + 2 * c[1] + d[1]);
  };
  let t = 0;
  for (let reading = 0; reading * it.everyS <= it.endS; reading += 1) {
    const target = reading * it.everyS;
    while (t < target - 1e-9) {
      // A step never crosses a switching.
      const next = Math.min(target, t + stepS, ...edges.filter((edge) => edge > t + 1e-9));
      advance(t, next - t);
      t = next;
    }
    timesS.push(target);
    loadK.push(load);
    bodyK.push(body);
  }
  return { timesS, loadK, bodyK };
}

/**
 * First-order autoregressive noise with a standard deviation of its own.
 * @param {Draw} draw @param {number} count @param {number} rho @param {number} deviation
 */
export function autoregressive(draw, count, rho, deviation) {
  const noise = [];
  let last = draw.normal(deviation);
  for (let i = 0; i < count; i += 1) {
    noise.push(last);
    last = rho * last + draw.normal(deviation * Math.sqrt(1 - rho * rho));
  }
  return noise;
}

/** How a logger scatters and rounds, for each cell. */
export const cells = {
  'rho-0.5': { rho: 0.5, noiseK: 0.05, stepK: 0.001 },
  'rho-0.8': { rho: 0.8, noiseK: 0.05, stepK: 0.001 },
  'rho-0.95': { rho: 0.95, noiseK: 0.05, stepK: 0.001 },
  'step-0.1': { rho: 0, noiseK: 0.04, stepK: 0.1 },
};

/** Standard uncertainties of the instruments; all errors normal. */
export const instruments = {
  thermometerOffsetK: 0.05,
  thermometerGain: 0.0008,
  ambientOffsetK: 0.15,
  meterGain: 0.004,
  scaleKg: 0.002,
  vesselJPerK: 20,
};

const everyS = 10;
/** The wattmeter's readings, s. */
export const powerEveryS = 1;

/** Errors that a campaign's instruments have. @param {Draw} draw @param {Record<string, number>} limits */
export const drawnErrors = (draw, limits) =>
  Object.fromEntries(Object.entries(limits).map(([name, u]) => [name, draw.normal(u)]));

/**
 * One logged test: what the instruments show of a fill. An error is true less shown, as in the program.
 * @param {Draw} draw @param {{ rho: number, noiseK: number, stepK: number }} cell
 * @param {Record<string, number>} errors
 * @param {{ massKg: number, heatS: number, coolS: number, bodyJPerK?: number }} test
 */
export function loggedTest(draw, cell, errors, { massKg, heatS, coolS, bodyJPerK = vat.bodyJPerK }) {
  const ambientMeanK = 293.15 + draw.within(2);
  const swing = draw.between(0.1, 0.6);
  const phase = draw.between(0, 2 * Math.PI);
  const ambientK = (/** @type {number} */ t) =>
    ambientMeanK + swing * Math.sin((2 * Math.PI * t) / 7200 + phase);
  const onS = 300 + draw.within(5);
  const offS = onS + heatS + draw.within(5);
  const endS = Math.ceil((offS + coolS) / everyS) * everyS;
  const truth = heated({
    ...vat,
    bodyJPerK,
    loadJPerK: massKg * vat.specificJPerKgK + vat.vesselJPerK,
    startK: 285.15 + draw.within(3),
    ambientK,
    onS,
    offS,
    endS,
    everyS,
  });
  const noise = autoregressive(draw, truth.timesS.length, cell.rho, cell.noiseK);
  const offset = draw.uniform() * cell.stepK;
  const rounded = (/** @type {number} */ value) =>
    Math.round((value + offset) / cell.stepK) * cell.stepK - offset;
  const shown = truth.loadK.map((value, i) => {
    const seen =
      (value + noise[i] - errors.thermometerOffsetK + 273.15 * errors.thermometerGain) /
      (1 + errors.thermometerGain);
    return rounded(seen);
  });
  const powerTimesS = [];
  const powerW = [];
  for (let t = 0; t <= endS; t += powerEveryS) {
    powerTimesS.push(t);
    powerW.push((t > onS && t < offS ? vat.powerW : 0) / (1 + errors.meterGain));
  }
  const ambientTimesS = [];
  const ambientsK = [];
  for (let t = 0; t <= endS + 60; t += 60) {
    ambientTimesS.push(t);
    ambientsK.push(ambientK(t) - errors.ambientOffsetK);
  }
  return {
    truth,
    shownMassKg: massKg - errors.scaleKg,
    data: {
      temperature: { timesS: truth.timesS, temperaturesK: shown },
      power: { timesS: powerTimesS, powerW },
      ambient: { timesS: ambientTimesS, temperaturesK: ambientsK },
    },
  };
}

/** Instruments without errors: what is left is the scatter of the log and the moments of switching. */
export const perfect = Object.fromEntries(Object.keys(instruments).map((name) => [name, 0]));
