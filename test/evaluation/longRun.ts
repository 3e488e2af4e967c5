/**
 * A long heating of the invented vat warmer with an hour and a half of cool-down after the weighing, by small steps of two coupled
 * bodies (nothing shared with the fit), read by instruments whose errors are drawn within what their data sheets state.
 */
import { heatCapacity } from '../../src/water/index.js';
import { normals, uniforms } from '../fitting/seeded.js';

export interface LongRunOptions {
  readonly seed: number;
  /** Nothing is wrong with any instrument, and the body holds 1 kJ/K, what an unknown one is taken for. */
  readonly exact?: boolean;
  readonly powerW?: number;
  readonly coolS?: number;
}

export interface LongRun {
  readonly truth: {
    readonly kappa: number;
    readonly ua: number;
    readonly tauS: number;
    readonly bodyJPerK: number;
  };
  readonly heatingS: number;
  /** What was read and typed; °C and kg. */
  readonly read: {
    readonly emptyKg: number;
    readonly fullKg: number;
    readonly startC: number;
    readonly endC: number;
    readonly ambientC: number;
    readonly energyKWh: number;
  };
  /** Exports with seconds from switch-on replaced by UTC. */
  readonly powerCsv: string;
  readonly temperatureCsv: string;
}

export const onMs = Date.parse('2026-10-05T09:00:00Z');
/** Seconds after switch-off at which T2 is read, and then the vessel weighed. */
export const readAfterS = 240;
export const weighAfterS = 300;

const waterKg = 6;
const potKg = 1.871;
const potJPerKgK = 500;
const roomC = 20;
const startC = 14;
const coupling = 12;

const stamp = (timeS: number) => new Date(onMs + Math.round(timeS) * 1000).toISOString();

export function longRun({ seed, exact = false, powerW = 900, coolS = 5400 }: LongRunOptions): LongRun {
  const uniform = uniforms(seed);
  const normal = normals(seed + 7919);
  const within = (half: number) => (exact ? 0 : half * (2 * uniform() - 1));
  const kappa = 0.92;
  const ua = 2;
  const bodyJPerK = 1000 + within(1000);
  const cp = heatCapacity(273.15 + 38, 101_325) * (1 + within(0.001));
  const load = waterKg * cp + potKg * (1 + within(0.15)) * (potJPerKgK + within(20));
  const gain = 1 + within(0.01);
  const atStartK = within(0.2) + within(0.1);
  const atEndK = within(0.2) + within(0.2) + within(0.05) + within(0.05);
  const heatingS = Math.round((1500 * 900) / powerW);
  const course = simulate({
    kappa,
    ua,
    bodyJPerK,
    load,
    powerW,
    heatingS,
    lastS: heatingS + weighAfterS + 120 + coolS,
  });
  const endC = course(heatingS + readAfterS);
  const shown = (celsius: number) =>
    celsius - atStartK - ((atEndK - atStartK) * (celsius - startC)) / (endC - startC);
  const steps = (value: number, step: number) => Math.round(value / step) * step;
  let drift = 0;
  const temperatureRows = ['Time,Temperature (°C)'];
  for (let t = -100; t <= heatingS + weighAfterS + 120 + coolS; t += 10) {
    // Errors of one reading hang on those before: ρ = 0.8 from one to the next.
    drift = 0.8 * drift + 0.02 * normal();
    temperatureRows.push(`${stamp(t)},${steps(shown(course(t)) + drift, 0.1).toFixed(1)}`);
  }
  const powerRows = ['Time,P [W]'];
  for (let t = -100; t <= heatingS + 200; t += 2) {
    const on = t >= 0 && t < heatingS;
    powerRows.push(`${stamp(t)},${(on ? (powerW + 2 * normal()) / gain : 0.4).toFixed(1)}`);
  }
  return {
    truth: { kappa, ua, bodyJPerK, tauS: slowestS(load, bodyJPerK, ua) },
    heatingS,
    read: {
      emptyKg: steps(potKg + within(0.002), 0.001),
      fullKg: steps(potKg + waterKg / 1.001 + within(0.002), 0.001),
      startC: steps(shown(startC), 0.1),
      endC: steps(shown(endC), 0.1),
      ambientC: steps(roomC + within(0.2) + within(1), 0.1),
      energyKWh: steps((powerW * heatingS) / gain / 3.6e6, 0.001),
    },
    powerCsv: `${powerRows.join('\n')}\n`,
    temperatureCsv: `${temperatureRows.join('\n')}\n`,
  };
}

interface Bodies {
  readonly kappa: number;
  readonly ua: number;
  readonly bodyJPerK: number;
  readonly load: number;
  readonly powerW: number;
  readonly heatingS: number;
  readonly lastS: number;
}

/** Temperature of the load by midpoint steps of half a second; everything at the start temperature until switch-on. */
function simulate({
  kappa,
  ua,
  bodyJPerK,
  load,
  powerW,
  heatingS,
  lastS,
}: Bodies): (timeS: number) => number {
  const stepS = 0.5;
  const temperatures = [startC];
  const slopes = (body: number, water: number, on: boolean) => {
    const flow = coupling * (body - water);
    return [((on ? kappa * powerW : 0) - flow) / bodyJPerK, (flow - ua * (water - roomC)) / load] as const;
  };
  let [body, water] = [startC, startC];
  for (let i = 0; i * stepS <= lastS + 10; i += 1) {
    const on = (i + 0.5) * stepS < heatingS;
    const [b1, w1] = slopes(body, water, on);
    const [b2, w2] = slopes(body + (b1 * stepS) / 2, water + (w1 * stepS) / 2, on);
    body += b2 * stepS;
    water += w2 * stepS;
    temperatures.push(water);
  }
  return (timeS) => temperatures[Math.max(0, Math.round(timeS / stepS))] as number;
}

/** Slower time constant of two coupled bodies of which the load alone loses heat: the smaller root of its characteristic equation. */
function slowestS(load: number, body: number, ua: number): number {
  const sum = coupling / body + (coupling + ua) / load;
  const product = (coupling * ua) / (body * load);
  return 1 / ((2 * product) / (sum + Math.sqrt(sum * sum - 4 * product)));
}
