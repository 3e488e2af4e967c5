/**
 * A hand-made evaluation of an invented campaign: a small hill dairy tests its 900 W vat warmer on three settings, three
 * runs each. Every text that a user can set passes through `text`, so that tests can put anything there.
 */
import type { Figure, RunEvaluation, WorkbookEvaluation } from '../../src/evaluation/index.js';
import type { Log } from '../../src/logs/index.js';
import { findProtocol, type Protocol } from '../../src/protocols/index.js';
import {
  add,
  constant,
  divide,
  errorOf,
  multiply,
  type Propagated,
  propagate,
  type Quantity,
  SourceBook,
  subtract,
} from '../../src/uncertainty/index.js';
import type { Heater, Instrument, RunRecord } from '../../src/workbook/index.js';

export interface FixtureOptions {
  readonly text?: (plain: string) => string;
  readonly runsPerSetting?: number;
  readonly logs?: boolean;
}

const settings = [
  { id: 'gentle', powerW: 420, efficiency: 0.37, seconds: 3300 },
  { id: 'medium', powerW: 640, efficiency: 0.43, seconds: 2200 },
  { id: 'full', powerW: 900, efficiency: 0.47, seconds: 1450 },
] as const;

type Text = (plain: string) => string;

export function fixture(options: FixtureOptions = {}): WorkbookEvaluation {
  const text = options.text ?? ((plain) => plain);
  const count = options.runsPerSetting ?? 3;
  const shipped = findProtocol('water-heating', null).protocol;
  const protocol: Protocol = {
    ...shipped,
    title: text(shipped.title),
    cautions: shipped.cautions.map(text),
    steps: shipped.steps.map((step) => ({ ...step, ask: text(step.ask) })),
  };
  const heater = heaterOf(text);
  const instruments = instrumentsOf(text);
  const book = new SourceBook();
  const runs = settings.flatMap((setting, s) =>
    Array.from({ length: count }, (_, i) =>
      runOf({
        setting,
        number: s * count + i,
        protocol,
        heater,
        instruments,
        book,
        text,
        logs: options.logs ?? true,
      }),
    ),
  );
  const figures = settings.map((setting) =>
    figureOf(
      setting.id,
      runs.filter((run) => run.run.setting === text(setting.id)),
      text,
    ),
  );
  return {
    workbook: {
      dir: '/nowhere',
      settings: {
        schema: 1,
        name: text('Hill dairy heat bench (invented)'),
        zone: 'Europe/Vienna',
        altitude: 1150,
        ambient: 290.15,
        hands: [{ id: 'mr', name: text('M. R.') }],
        units: 'si',
      },
      instruments: new Map(Object.values(instruments).map((each) => [each.id, each])),
      heaters: new Map([[heater.id, heater]]),
    },
    day: new Date('2026-10-09T08:00:00Z'),
    figures: count > 0 ? figures : [],
    methods: [],
    runs,
    refused: [
      {
        run: text('vat-warmer-medium-04'),
        heater: text('vat-warmer'),
        setting: text('medium'),
        reason: text(
          'The logged energy, 0.3941 kWh, and the typed one, 0.3583 kWh, differ by more than 0.0042 kWh.',
        ),
        kind: 'refused',
        error: null,
      },
    ],
    warnings: [text('The workbook states an altitude and no pressure.')],
  };
}

function heaterOf(text: Text): Heater {
  return {
    schema: 1,
    id: 'vat-warmer',
    name: text('Vat warmer 900 W'),
    ratedPower: 900,
    vessel: { material: text('stainless steel') },
    settings: settings.map(({ id }) => ({ id: text(id), name: text(id), control: 'steady' as const })),
  };
}

function instrumentsOf(text: Text) {
  const meter: Instrument = {
    schema: 1,
    id: 'meter-1',
    kind: 'wattmeter',
    name: text('plug-in meter'),
    assumed: false,
    resolution: 3600,
    limits: { ofReading: 0.01 },
    due: '2027-03-01',
  };
  const thermometer: Instrument = {
    schema: 1,
    id: 'logger-1',
    kind: 'thermometer',
    name: text('thermometer logger'),
    assumed: false,
    resolution: 0.1,
    certificate: {
      number: text('HD-17'),
      date: '2026-02-03',
      due: '2026-10-21',
      coverageFactor: 2,
      points: [
        { at: 273.15, correction: 0.02, expandedUncertainty: 0.1 },
        { at: 333.15, correction: -0.11, expandedUncertainty: 0.12 },
      ],
    },
  };
  const scale: Instrument = {
    schema: 1,
    id: 'scale-1',
    kind: 'scale',
    name: text('kitchen scale'),
    assumed: true,
    resolution: 0.001,
    limits: { absolute: 0.005 },
  };
  return { wattmeter: meter, thermometer, scale };
}

interface RunParts {
  readonly setting: (typeof settings)[number];
  readonly number: number;
  readonly protocol: Protocol;
  readonly heater: Heater;
  readonly instruments: ReturnType<typeof instrumentsOf>;
  readonly book: SourceBook;
  readonly text: Text;
  readonly logs: boolean;
}

function runOf(parts: RunParts): RunEvaluation {
  const { setting, number, protocol, heater, instruments, book, text, logs } = parts;
  const id = text(`vat-warmer-${setting.id}-0${(number % 3) + 1}`);
  const on = Date.parse('2026-10-05T09:00:00Z') + number * 7_200_000;
  const energyJ = setting.powerW * setting.seconds;
  const efficiency = setting.efficiency * (1 + 0.008 * ((number % 3) - 1));
  const gain = errorOf(
    book.get({
      id: 'meter-1:gain',
      name: text('gain of the plug-in meter'),
      halfWidth: 0.01,
      scope: 'instrument',
      instrument: 'meter-1',
    }),
  );
  const stirring = errorOf(
    book.get({
      id: `${id}:stirring`,
      name: text('water not evenly warm at the end'),
      halfWidth: 0.2,
      scope: 'run',
      assumed: true,
    }),
  );
  const energy = multiply(constant(energyJ), add(constant(1), gain));
  const rise = add(constant(39), stirring);
  const water = multiply(constant((efficiency * energyJ) / 39), rise);
  const vapour = multiply(constant((0.012 * energyJ) / 39), rise);
  const vessel = multiply(constant((0.028 * energyJ) / 39), rise);
  const rest = subtract(energy, add(water, vapour, vessel));
  const quantities = {
    water: divide(water, energy),
    'water+vessel': divide(add(water, vessel), energy),
    'water+vapour': divide(add(water, vapour), energy),
  };
  const booking = (name: RunEvaluation['balance'][number]['name'], heat: Quantity) => ({
    name,
    heat: propagate(heat),
    share: propagate(divide(heat, energy)),
  });
  const reading = { energy: propagate(energy), how: text('integral of the log') };
  return {
    run: recordOf(id, parts, on),
    protocol,
    heater,
    instruments,
    efficiency: {
      water: propagate(quantities.water),
      'water+vessel': propagate(quantities['water+vessel']),
      'water+vapour': propagate(quantities['water+vapour']),
    },
    quantities,
    balance: [
      booking('water', water),
      booking('vapour', vapour),
      booking('vessel', vessel),
      booking('room and rest, not separated', rest),
    ],
    energy: {
      typed: reading,
      logged: logs ? reading : null,
      counter: null,
      used: logs ? 'logged' : 'typed',
      difference: logs ? propagate(add(constant(1500), multiply(constant(2000), stirring))) : null,
    },
    conditions: {
      waterKg: 5.987,
      startK: 285.05,
      endK: 324.15,
      riseK: 39.1,
      ambientK: 290.15,
      pressurePa: 88_240,
      pressureFrom: text('standard atmosphere at 1150 m'),
      durationS: setting.seconds,
      meanPowerW: setting.powerW,
      meanVoltageV: number % 2 === 0 ? 229.4 : null,
      lid: text('on'),
      vapourKg: 0.006,
      weighedAfter: true,
      start: 'rest',
    },
    powerLog: logs ? powerLog(setting.powerW, setting.seconds, on, number) : null,
    temperatureLog: logs ? temperatureLog(setting.seconds, on) : null,
    warnings: number === 0 ? [text('The meter was past due since 3 days when this run was made.')] : [],
  };
}

function recordOf(id: string, { setting, text, heater, protocol }: RunParts, onMs: number): RunRecord {
  const at = (seconds: number) => new Date(onMs + seconds * 1000).toISOString();
  const reading = (
    step: string,
    seconds: number,
    typed: string,
    unit: string,
    value: number,
    si: number,
    instrument: string,
  ) => ({
    step,
    seq: 5,
    at: at(seconds),
    hand: 'mr',
    typed: text(typed),
    unit: text(unit),
    value,
    si,
    instrument: text(instrument),
  });
  return {
    id,
    heater: heater.id,
    setting: text(setting.id),
    protocol: { name: protocol.name, version: 1, sha256: 'ab'.repeat(32) },
    instruments: { wattmeter: 'meter-1', thermometer: 'logger-1', scale: 'scale-1' },
    hand: 'mr',
    zone: 'Europe/Vienna',
    startedAt: at(-900),
    readings: [
      reading('ambientTemperature', -700, '17.0 °C', '°C', 17, 290.15, 'logger-1'),
      reading('emptyWeight', -600, '1871', 'g', 1871, 1.871, 'scale-1'),
      reading('fullWeight', -500, '7.858 kg', 'kg', 7.858, 7.858, 'scale-1'),
      reading('startTemperature', -60, '11.9 °C', '°C', 11.9, 285.05, 'logger-1'),
      reading('interimTemperature', setting.seconds / 2, '31.2 °C', '°C', 31.2, 304.35, 'logger-1'),
      reading('endTemperature', setting.seconds + 150, '51.0 °C', '°C', 51, 324.15, 'logger-1'),
      reading('energyAfter', setting.seconds + 250, '0,363 kWh', 'kWh', 0.363, 1_306_800, 'meter-1'),
    ],
    choices: { lid: text('on') },
    marks: { startLog: at(-100), switchOn: at(0), switchOff: at(setting.seconds) },
    notes: [
      { step: 'remarks', text: text('A door stood open for a minute.'), at: at(setting.seconds + 300) },
    ],
    skipped: ['pressure'],
    attachments: [
      {
        role: 'powerLog',
        file: text('exports/meter.csv'),
        originalName: text('meter.csv'),
        bytes: 61_234,
        sha256: '0123456789abcdef'.repeat(4),
        options: {},
        mapping: {},
        at: at(setting.seconds + 400),
      },
    ],
    excluded: null,
    ended: true,
    paused: false,
    entries: [],
  };
}

const mapping: Log['mapping'] = {
  delimiter: ',',
  decimal: '.',
  decimalEvidence: 'header',
  encoding: 'utf-8',
  headerLine: 1,
  firstDataLine: 2,
  timeForm: 'elapsed-s',
  timeEvidence: 'header',
  zone: null,
  columns: [],
};

const emptyLog = {
  mapping,
  powerW: null,
  energyJ: null,
  voltageV: null,
  currentA: null,
  powerFactor: null,
  temperatureK: null,
  warnings: [],
  resolution: { powerW: 0.1, energyJ: null, temperatureK: 0.1 },
};

/** One sample a second, with a ripple of our own so that the curve is not flat; every third log has no clock. */
function powerLog(powerW: number, seconds: number, onMs: number, number: number): Log {
  const rows = seconds + 200;
  const timesS = Float64Array.from({ length: rows }, (_, i) => i);
  const ripple = (i: number) => powerW * 0.01 * Math.sin(i / 40) + ((i * 7919) % 13) / 4;
  const values = timesS.map((i) => (i < 100 || i >= 100 + seconds ? 1.5 : powerW + ripple(i)));
  return {
    ...emptyLog,
    rows,
    startUtcMs: number % 3 === 2 ? null : onMs - 100_000,
    timesS,
    powerW: values,
  } as Log;
}

function temperatureLog(seconds: number, onMs: number): Log {
  const rows = Math.floor((seconds + 600) / 10);
  const timesS = Float64Array.from({ length: rows }, (_, i) => 10 * i);
  const course = (t: number) => 285.05 + 39 * Math.min(1, Math.max(0, (t - 140) / seconds));
  const values = timesS.map((t) => Math.round(10 * course(t)) / 10);
  return { ...emptyLog, rows, startUtcMs: onMs - 100_000, timesS, temperatureK: values } as Log;
}

function figureOf(setting: string, runs: readonly RunEvaluation[], text: Text): Figure {
  const values = runs.map((run) => (run.efficiency.water as Propagated).value);
  const value = values.reduce((sum, each) => sum + each, 0) / Math.max(1, values.length);
  const u = 0.008;
  const first = runs[0] as RunEvaluation;
  const side = (definition: 'water+vessel' | 'water+vapour') => {
    const found = first?.efficiency[definition];
    return found ? { value: found.value, interval: found.interval } : null;
  };
  const row = (id: string, source: string, share: number, more: Partial<Figure['budget'][number]>) => ({
    id,
    source: text(source),
    scope: 'run' as const,
    sensitivity: 0.431,
    contribution: u * Math.sqrt(share),
    share,
    assumed: false,
    instrument: null,
    ...more,
  });
  return {
    heater: first?.heater,
    setting: text(setting),
    protocol: first?.protocol,
    definition: 'water',
    efficiency: {
      value,
      standardUncertainty: u,
      coverage: 0.95,
      coverageFactor: 2.11,
      degreesOfFreedom: setting === 'full' ? Number.POSITIVE_INFINITY : 16.2,
      degreesOfFreedomBasis: text('back-solved from k'),
      interval: [value - 2.11 * u, value + 2.11 * u],
    },
    prediction: { interval: [value - 0.021, value + 0.021] },
    spread: { standardDeviation: 0.0034, basis: 'seen', words: text(`seen in ${runs.length} runs`) },
    budget: [
      row('meter-1:gain', 'gain of the plug-in meter on steady loads', 0.55, {
        scope: 'instrument',
        instrument: 'meter-1',
      }),
      row('between-runs', 'scatter from run to run, seen in 3 runs', 0.22, {
        scope: 'between runs',
        sensitivity: null,
      }),
      row('wetted', 'share of the vessel that warms with the water', 0.09, {
        scope: 'setting',
        assumed: true,
      }),
      row('immersion', 'heat led along the probe’s stem at the end', 0.06, {
        scope: 'instrument',
        assumed: true,
      }),
      row('logger', 'calibration of the thermometer logger', 0.04, {
        scope: 'instrument',
        instrument: 'logger-1',
      }),
      row('salts', 'salts in tap water', 0.02, { scope: 'lab', assumed: true }),
      row('scale', 'limits of the kitchen scale', 0.01, {
        scope: 'instrument',
        instrument: 'scale-1',
        assumed: true,
      }),
      row('if97', 'formulation of the enthalpy of water', 0.006, { scope: 'lab', sensitivity: -0.0123 }),
      row('lag', 'probe behind the water when read', 0.0039, { assumed: true }),
      row('altitude', 'air pressure from the altitude', 0.0001, { scope: 'lab' }),
    ],
    runs,
    definitions: {
      water: { value, interval: [value - 2.11 * u, value + 2.11 * u] },
      'water+vessel': side('water+vessel'),
      'water+vapour': side('water+vapour'),
    },
    parts: { shared: [], own: { u: 0.003, degreesOfFreedom: 2 } },
    withExcluded: null,
    mark: runs.length === 1 ? 'one run' : runs.length === 2 ? 'two runs' : null,
    warnings: [],
  };
}
