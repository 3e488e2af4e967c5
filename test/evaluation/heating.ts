/**
 * A heating of the invented dairy from first principles, sharing nothing with the evaluation but the properties of water:
 * heater body and load as two nodes, loss of both to the room, vapour from an open vessel. Heun's method in steps of 1 s; all
 * flows are summed, so that every booking has a truth to be held against.
 */
import { evaluateRun, type KnownBody, type KnownLoss } from '../../src/evaluation/index.js';
import { type Log, readExport } from '../../src/logs/index.js';
import { SourceBook } from '../../src/uncertainty/index.js';
import {
  airDensity,
  buoyancyFactor,
  density,
  enthalpy,
  heatCapacity,
  saturationPressurePa,
  vapourEnthalpy,
} from '../../src/water/index.js';
import type { Heater, RunRecord } from '../../src/workbook/index.js';
import { bare, type Bench, heater, kelvin, runOf, workbookOf } from './dairy.js';

const pressurePa = 101_325;
const h = (celsius: number) => enthalpy(kelvin(celsius), pressurePa);

export interface Model {
  readonly waterKg: number;
  readonly powerW: number;
  readonly heatingS: number;
  readonly startC: number;
  readonly roomC: number;
  readonly vesselJPerK: number;
  readonly bodyJPerK: number;
  /** Between heater body and load, W/K. */
  readonly couplingWPerK: number;
  /** Loss of the load and of the heater body, W/K. */
  readonly uaWPerK: number;
  readonly bodyUaWPerK: number;
  /** Evaporation, kg/(s Pa). */
  readonly vapour: number;
  /** Rest before switch-on and after switch-off, s. */
  readonly beforeS: number;
  readonly afterS: number;
}

export const vat: Model = {
  waterKg: 6,
  powerW: 880,
  heatingS: 1500,
  startC: 14,
  roomC: 19,
  vesselJPerK: 860,
  bodyJPerK: 900,
  couplingWPerK: 15,
  uaWPerK: 2.2,
  bodyUaWPerK: 0.8,
  vapour: 0,
  beforeS: 1000,
  afterS: 2400,
};

const humidity = 0.5;

/** The course second by second, and what each way out took from T1 (30 s before switch-on) to T2. */
export function heated(model: Model) {
  const roomPa = humidity * saturationPressurePa(kelvin(model.roomC));
  type State = { load: number; body: number; kg: number };
  let state: State = { load: model.startC, body: model.roomC, kg: model.waterKg };
  const flows = ({ load, body, kg }: State, powerW: number) => {
    const across = model.couplingWPerK * (body - load);
    const steam = model.vapour * Math.max(0, saturationPressurePa(kelvin(load)) - roomPa);
    const room = model.uaWPerK * (load - model.roomC);
    const bodyRoom = model.bodyUaWPerK * (body - model.roomC);
    const latent = steam > 0 ? steam * (vapourEnthalpy(kelvin(load)) - h(load)) : 0;
    return {
      steam,
      room,
      bodyRoom,
      dLoad: (across - room - latent) / (kg * heatCapacity(kelvin(load), pressurePa) + model.vesselJPerK),
      dBody: (powerW - across - bodyRoom) / model.bodyJPerK,
    };
  };
  const timesS: number[] = [];
  const loadsC: number[] = [];
  const sums: { room: number; bodyRoom: number; steamJ: number; kg: number; body: number }[] = [];
  let [room, bodyRoom, steamJ] = [0, 0, 0];
  for (let t = -model.beforeS; t <= model.heatingS + model.afterS; t += 1) {
    timesS.push(t);
    loadsC.push(state.load);
    sums.push({ room, bodyRoom, steamJ, kg: state.kg, body: state.body });
    const powerW = t >= 0 && t < model.heatingS ? model.powerW : 0;
    const a = flows(state, powerW);
    const b = flows(
      { load: state.load + a.dLoad, body: state.body + a.dBody, kg: state.kg - a.steam },
      powerW,
    );
    room += (a.room + b.room) / 2;
    bodyRoom += (a.bodyRoom + b.bodyRoom) / 2;
    // What vapour carries off, against water at the start: h_g(T) − h(T1).
    if (a.steam > 0)
      steamJ += ((a.steam + b.steam) / 2) * (vapourEnthalpy(kelvin(state.load)) - h(model.startC));
    state = {
      load: state.load + (a.dLoad + b.dLoad) / 2,
      body: state.body + (a.dBody + b.dBody) / 2,
      kg: state.kg - (a.steam + b.steam) / 2,
    };
  }
  const index = (t: number) => t + model.beforeS;
  const fromS = -30;
  const toS = loadsC.indexOf(Math.max(...loadsC.slice(index(model.heatingS)))) - model.beforeS;
  const [first, last] = [sums[index(fromS)]!, sums[index(toS)]!];
  const [t1, t2] = [loadsC[index(fromS)]!, loadsC[index(toS)]!];
  return {
    timesS,
    loadsC,
    fromS,
    toS,
    t1,
    t2,
    firstKg: first.kg,
    lastKg: last.kg,
    inputJ: model.powerW * model.heatingS,
    truth: {
      water: last.kg * (h(t2) - h(t1)),
      vapour: last.steamJ - first.steamJ,
      vessel: model.vesselJPerK * (t2 - t1),
      'heater body': model.bodyJPerK * (last.body - first.body),
      room: last.room - first.room,
      rest: last.bodyRoom - first.bodyRoom,
    },
  };
}

export type Heated = ReturnType<typeof heated>;

/** When switch-on was; the hand-made runs of `dairy.ts` have the same. */
const onMs = Date.parse('2026-10-05T09:00:00Z');
const at = (seconds: number) => new Date(onMs + seconds * 1000).toISOString();

/** A logger beside it, a row every ten seconds, in steps of 0.01 K. */
export function logOf(run: Heated, noiseK: (i: number) => number = () => 0): Log {
  const rows = run.timesS.flatMap((t, i) =>
    t % 10 === 0 ? [`${at(t)},${(run.loadsC[i]! + noiseK(i)).toFixed(2)}`] : [],
  );
  return readExport(new TextEncoder().encode(`Time,Temperature (°C)\n${rows.join('\n')}\n`), {
    fileName: 'logger.csv',
  });
}

/** Instruments whose displays hide nothing of the truth; their limits stay. */
const fine = { resolution: 1e-6 } as const;

export interface Given {
  readonly model: Model;
  readonly log?: Log | null;
  readonly loss?: KnownLoss | null;
  readonly body?: KnownBody | null;
  readonly heater?: Partial<Heater>;
  /** Temperatures typed on the way, at these seconds after switch-on. */
  readonly interimS?: readonly number[];
  /** When the vessel was weighed again, s after switch-on; at the end of the log where left out. */
  readonly weighedS?: number;
  readonly ambientC?: number | null;
  readonly book?: SourceBook;
  readonly id?: string;
  /** Part of the truth that the meter shows. */
  readonly metered?: number;
}

/** The run as it would have been read at the bench, evaluated. */
export function evaluatedHeating(given: Given) {
  const { model } = given;
  const run = heated(model);
  // The pot's wetted share is 1 in the bare protocol: its heat capacity is that of the model.
  const emptyKg = 1.72;
  const bench: Bench = {
    heater: {
      ...heater,
      vessel: { material: 'model', specificHeat: model.vesselJPerK / emptyKg },
      ...given.heater,
    },
    scale: { ...benchInstrument('scale-1', 'scale', 0.0005), ...fine },
    thermometer: { ...benchInstrument('thermometer-1', 'thermometer', 0.05), ...fine },
    meter: { ...benchInstrument('meter-1', 'wattmeter', 0), limits: { ofReading: 0.005 }, ...fine },
  };
  const air = airDensity(pressurePa, kelvin(given.ambientC ?? model.roomC), 0.5);
  const factor = buoyancyFactor(air, density(kelvin(run.t1), pressurePa));
  const plain = runOf(
    bare,
    {
      emptyKg,
      fullKg: emptyKg + run.firstKg / factor,
      finalKg: emptyKg + run.lastKg / factor,
      startC: run.t1,
      endC: run.t2,
      ambientC: given.ambientC === undefined ? model.roomC : given.ambientC,
      beforeKWh: 0,
      afterKWh: (run.inputJ * (given.metered ?? 1)) / 3.6e6,
      heatingS: model.heatingS,
      lid: 'on',
    },
    { bench, ...(given.id ? { id: given.id } : {}) },
  );
  const book = given.book ?? new SourceBook();
  const evaluation = evaluateRun({
    book,
    workbook: workbookOf(bench),
    run: timed(plain, run, given),
    protocol: bare,
    powerLog: null,
    temperatureLog: given.log ?? null,
    loss: given.loss ?? null,
    body: given.body ?? null,
  });
  return { evaluation, run };
}

function benchInstrument(id: string, kind: 'scale' | 'thermometer' | 'wattmeter', absolute: number) {
  return { schema: 1, id, kind, name: id, assumed: false, limits: { absolute } } as const;
}

/** Readings at the times they were taken. */
function timed(plain: RunRecord, run: Heated, { model, interimS = [], weighedS }: Given): RunRecord {
  const roleOf = (step: string) => {
    const found = bare.steps.find((each) => each.id === step);
    return found && 'role' in found ? found.role : undefined;
  };
  const when = (step: string): number => {
    const role = roleOf(step);
    if (role === 'startTemperature') return run.fromS;
    if (role === 'endTemperature') return run.toS;
    if (role === 'finalMass') return weighedS ?? model.heatingS + model.afterS;
    return role === 'energyAfter' ? model.heatingS + model.afterS : -model.beforeS - 100;
  };
  const readings = plain.readings.map((each) => ({ ...each, at: at(when(each.step)) }));
  const interim = bare.steps.find((each) => 'role' in each && each.role === 'interimTemperature')!;
  const last = plain.readings.at(-1)!;
  const typed = interimS.map((s, i) => {
    const si = kelvin(run.loadsC[s + model.beforeS]!);
    return { ...last, step: interim.id, seq: 100 + i, at: at(s), unit: '°C', value: si, si };
  });
  return { ...plain, readings: [...readings, ...typed] };
}
