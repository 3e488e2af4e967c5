/**
 * Hand-made runs of the invented hill dairy, straight as records, so that what goes into an evaluation stands in the
 * test in full. Temperatures are given in °C as they are read, everything else in SI.
 */
import { evaluateRun, type RunInputs } from '../../src/evaluation/index.js';
import { findProtocol, type Protocol, type ReadingRole } from '../../src/protocols/index.js';
import { SourceBook } from '../../src/uncertainty/index.js';
import type { Heater, Instrument, ReadingRecord, RunRecord, Workbook } from '../../src/workbook/index.js';

export const kelvin = (celsius: number) => celsius + 273.15;
export const kWh = 3.6e6;

export const shipped = (name: string) => findProtocol(name, null).protocol;
/** The main procedure without its allowances: nothing but the instruments is in doubt. */
export const bare: Protocol = { ...shipped('water-heating'), allowances: [] };

export const instruments = {
  meter: {
    schema: 1,
    id: 'meter-1',
    kind: 'wattmeter',
    name: 'plug-in wattmeter',
    assumed: false,
    resolution: 3600,
    limits: { ofReading: 0.01 },
  },
  thermometer: {
    schema: 1,
    id: 'thermometer-1',
    kind: 'thermometer',
    name: 'probe thermometer',
    assumed: false,
    resolution: 0.1,
    limits: { absolute: 0.2 },
  },
  scale: {
    schema: 1,
    id: 'scale-1',
    kind: 'scale',
    name: 'bench scale',
    assumed: false,
    resolution: 0.001,
    limits: { absolute: 0.002 },
  },
} as const satisfies Record<string, Instrument>;

export const heater: Heater = {
  schema: 1,
  id: 'vat-warmer',
  name: '900 W vat warmer',
  ratedPower: 900,
  settings: [
    { id: 'gentle', control: 'steady' },
    { id: 'full', control: 'steady' },
  ],
};

export interface Bench {
  readonly heater?: Heater;
  readonly meter?: Instrument;
  readonly thermometer?: Instrument;
  readonly scale?: Instrument;
  readonly barometer?: Instrument;
  readonly settings?: Partial<Workbook['settings']>;
}

export function workbookOf(bench: Bench = {}): Workbook {
  const { meter, thermometer, scale } = { ...instruments, ...bench };
  const all = [meter, thermometer, scale, ...(bench.barometer ? [bench.barometer] : [])];
  const warmer = bench.heater ?? heater;
  return {
    dir: '/nowhere',
    settings: {
      schema: 1,
      name: 'Hill dairy heat bench (invented)',
      zone: 'UTC',
      pressure: 101_325,
      hands: [{ id: 'mr', name: 'M. R.' }],
      units: 'si',
      ...bench.settings,
    },
    instruments: new Map(all.map((each) => [each.id, each])),
    heaters: new Map([[warmer.id, warmer]]),
  };
}

/** What was read in a run. */
export interface Readings {
  readonly emptyKg: number;
  readonly fullKg: number;
  /** Null where the second weighing was skipped. */
  readonly finalKg: number | null;
  readonly startC: number;
  readonly endC: number;
  readonly ambientC: number | null;
  readonly bodyC?: number;
  readonly pressurePa?: number;
  readonly beforeKWh: number;
  readonly afterKWh: number;
  readonly heatingS: number;
  readonly lid: string | null;
}

/** 6 kg in a pot of 1.871 kg, from 20 to 60 °C with 0.4 kWh in 1600 s, no steam, room at 20 °C, lid on. */
export const plain: Readings = {
  emptyKg: 1.871,
  fullKg: 7.871,
  finalKg: 7.871,
  startC: 20,
  endC: 60,
  ambientC: 20,
  beforeKWh: 12.3,
  afterKWh: 12.7,
  heatingS: 1600,
  lid: 'on',
};

const onMs = Date.parse('2026-10-05T09:00:00Z');
const at = (seconds: number) => new Date(onMs + seconds * 1000).toISOString();

/** Seconds from switch-on at which T2 is read, after `heatingS`. */
export const settlingS = 100;

export function runOf(
  protocol: Protocol,
  readings: Readings,
  more: { readonly id?: string; readonly setting?: string; readonly bench?: Bench } = {},
): RunRecord {
  const { meter, thermometer, scale } = { ...instruments, ...more.bench };
  const bound: Record<string, string> = {
    wattmeter: meter.id,
    thermometer: thermometer.id,
    scale: scale.id,
    ...(more.bench?.barometer ? { barometer: more.bench.barometer.id } : {}),
  };
  const temperature = (celsius: number | null | undefined) => (celsius == null ? null : kelvin(celsius));
  const values: Partial<Record<ReadingRole, number | null>> = {
    emptyMass: readings.emptyKg,
    fullMass: readings.fullKg,
    finalMass: readings.finalKg,
    startTemperature: kelvin(readings.startC),
    endTemperature: kelvin(readings.endC),
    ambientTemperature: temperature(readings.ambientC),
    bodyTemperature: temperature(readings.bodyC),
    pressure: readings.pressurePa ?? null,
    energyBefore: readings.beforeKWh * kWh,
    energyAfter: readings.afterKWh * kWh,
  };
  const records: ReadingRecord[] = [];
  const choices: Record<string, string> = {};
  const marks: Record<string, string> = {};
  protocol.steps.forEach((step, i) => {
    if (step.kind === 'mark' && step.role === 'switchOn') marks[step.id] = at(0);
    if (step.kind === 'mark' && step.role === 'switchOff') marks[step.id] = at(readings.heatingS);
    if (step.kind === 'choice' && step.role === 'lid' && readings.lid !== null)
      choices[step.id] = readings.lid;
    const si = step.kind === 'reading' && step.role ? values[step.role] : undefined;
    if (step.kind !== 'reading' || si == null) return;
    records.push({
      step: step.id,
      seq: i + 1,
      at: at(step.role === 'endTemperature' ? readings.heatingS + settlingS : -60),
      hand: 'mr',
      typed: '',
      unit: step.unit,
      value: si,
      si,
      instrument: bound[step.instrument] ?? null,
    });
  });
  return {
    id: more.id ?? 'vat-warmer-full-01',
    heater: (more.bench?.heater ?? heater).id,
    setting: more.setting ?? 'full',
    protocol: { name: protocol.name, version: protocol.version, sha256: '' },
    instruments: bound,
    hand: 'mr',
    zone: 'UTC',
    startedAt: at(-600),
    readings: records,
    choices,
    marks,
    notes: [],
    skipped: [],
    attachments: [],
    excluded: null,
    ended: true,
    paused: false,
    entries: [],
  };
}

/** Evaluates `plain` with changes, on a bench of its own. */
export function evaluated(
  readings: Partial<Readings> = {},
  options: {
    readonly bench?: Bench;
    readonly protocol?: Protocol;
    readonly book?: SourceBook;
    readonly id?: string;
    readonly logs?: Partial<Pick<RunInputs, 'powerLog' | 'temperatureLog'>>;
  } = {},
) {
  const protocol = options.protocol ?? bare;
  const bench = options.bench ?? {};
  return evaluateRun({
    book: options.book ?? new SourceBook(),
    workbook: workbookOf(bench),
    run: runOf(protocol, { ...plain, ...readings }, { bench, ...(options.id ? { id: options.id } : {}) }),
    protocol,
    powerLog: null,
    temperatureLog: null,
    ...options.logs,
  });
}
