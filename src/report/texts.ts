import type { Definition } from '../protocols/index.js';
import type { InstrumentKind } from '../workbook/index.js';
import { balanceTexts } from './balanceTexts.js';
import { curveTexts } from './curveTexts.js';
import { cautionTexts, methodTexts } from './longTexts.js';

/** Where the heat goes under each definition, as the end of a sentence. */
const into: Record<Definition, string> = {
  water: 'the water',
  'water+vessel': 'water and vessel',
  'water+vapour': 'water and vapour',
};

/** Every text of the page; the long ones come from longTexts.ts. Another language is another table of this shape. */
export const texts = {
  language: 'en',
  pageTitle: (lab: string) => `Heating efficiency, ${lab}`,
  over: 'Report of a heating test',
  written: (when: string, zone: string) => `Written ${when} (${zone})`,
  contents: 'In this report',
  notMeasured: 'not measured',
  notStated: 'not stated',
  tableBehind: 'The numbers behind this chart',

  headline: {
    heading: 'Result',
    sentence: (setting: string, definition: Definition) => ({
      before: `On ${setting}, `,
      after: ` of the metered energy reaches ${into[definition]}`,
    }),
    future: 'One future heating: ',
    coverage: (percent: string) => `Every range is stated at ${percent} coverage.`,
    conditions: (from: string, to: string, mass: string, runs: string) =>
      `Heated from ${from} to ${to}, ${mass} of water, ${runs}.`,
    runs: (n: number) => (n === 1 ? 'one run' : `${n} runs`),
    spreadAssumed: (mark: string) => `${mark}: the scatter from run to run is assumed, not seen`,
    nothing: 'There is no figure yet: no run could be counted. What was not counted, and why, stands below.',
  },

  summary: {
    heading: 'Efficiency of each setting',
    caption: 'Efficiency and its ranges',
    columns: [
      'Setting',
      'Efficiency',
      'Range of the mean',
      'One future heating',
      'Runs',
      'Scatter from run to run',
    ],
    spread: (points: string, words: string) => `${points} points, ${words}`,
    coverage: (percent: string) =>
      `Ranges of the mean and of one future heating: ${percent} coverage. What stands behind ± is the expanded uncertainty at that coverage, in points of the metered energy.`,
    definitionsCaption: 'The three definitions side by side',
    definitionsColumns: ['Setting', 'Into the water', 'Into water and vessel', 'Into water and vapour'],
    definitionsNote: 'The figure that leads is set in bold; the protocol names it.',
    chartTitle: 'Efficiency of each setting with its ranges',
    chartCaption:
      'Diamond: the mean. Thick bar: where the true mean lies. Thin bar: where the true efficiency of one future heating lies.',
    axis: 'share of the metered energy, %',
  },

  balance: balanceTexts,

  curves: curveTexts,

  courses: {
    heading: 'Power and temperature against time',
    power: (unit: string) => `power, ${unit}`,
    temperature: (unit: string) => `water temperature, ${unit}`,
    time: 'minutes from switch-on',
    timeFromLog: 'minutes from the first reading',
    on: 'on',
    off: 'off',
    powerTitle: (run: string) => `Power of run ${run} against time`,
    temperatureTitle: (run: string) => `Water temperature of run ${run} against time`,
    noLog: 'no log',
    noPower: 'No power log was imported for this run.',
    noTemperature: 'No temperatures are known for this run.',
    caption: 'Circles: read at the bench. Lines: logged. Dotted: switch-on and switch-off at the bench.',
    columns: ['Minutes', 'Power', 'Temperature, logged', 'Temperature, bench'],
    describe: (low: string, high: string) => `From ${low} at the lowest to ${high} at the highest.`,
  },

  budget: {
    heading: 'What makes the figures doubtful',
    doubt: (words: string, share: string) =>
      `The biggest doubt about the next heating is ${words}: ${share} of the whole, by squares.`,
    doubtOfMean: (words: string, share: string) =>
      `The biggest part of the doubt of the mean itself is ${words}: ${share}.`,
    none: 'No source of doubt is on record.',
    assumed: 'assumed',
    chartTitle: (setting: string) => `Shares of the doubt of the mean on ${setting}`,
    others: (n: number) => (n === 1 ? 'one smaller source' : `${n} smaller sources`),
    columns: ['Source', 'Share', 'Contribution, points', 'Shared by', 'Sensitivity, per SI unit'],
    scopes: {
      lab: 'the lab',
      instrument: 'all readings of the instrument',
      heater: 'the heater',
      setting: 'the setting',
      run: 'one run',
      reading: 'one reading',
      'between runs': 'the scatter between runs',
    },
    total: 'Standard uncertainty of the mean',
    validation: 'First order held against Monte Carlo over the same model (JCGM 101, clause 8), run by run:',
    metrology: (k: string, degrees: string, basis: string) =>
      `Coverage factor ${k}; degrees of freedom ${degrees}, ${basis}.`,
    infinite: 'without limit',
    assumedNote:
      'Hatched, and marked assumed: common practice without a source, neither measured nor guaranteed by anyone.',
  },

  repeatability: {
    heading: 'Repeatability',
    chartTitle: (setting: string) => `Runs on ${setting} around their mean`,
    axis: 'points from the mean',
    caption: (basis: string) => `Line: the mean. Band: one standard deviation between runs, ${basis}.`,
    columns: ['Run', 'Efficiency', 'From the mean, points'],
  },

  instruments: {
    heading: 'Instruments',
    caption: 'Instruments, their errors and their calibration',
    columns: ['Instrument', 'Steps', 'Errors known from', 'Next calibration or check'],
    kinds: {
      wattmeter: 'wattmeter',
      thermometer: 'thermometer',
      scale: 'scale',
      barometer: 'barometer',
    } satisfies Record<InstrumentKind, string>,
    noDue: 'no date on record',
    points: (name: string) => `Points of the certificate: ${name}`,
    pointColumns: ['At', 'Correction', 'Expanded uncertainty'],
    coverageFactor: (k: string) => `Coverage factor of the certificate: ${k}.`,
    usedIn: (n: number) => (n === 1 ? 'used in one run' : `used in ${n} runs`),
  },

  readings: {
    heading: 'Readings',
    columns: ['What', 'As typed', 'In SI', 'Time', 'Hand', 'Instrument'],
    run: (id: string, setting: string, zone: string) => `${id}, ${setting}; times in ${zone}`,
    note: 'Note',
    choice: 'Choice',
    mark: 'Mark',
    skipped: 'left empty',
  },

  conditions: {
    heading: 'Conditions',
    rows: {
      start: 'Start',
      water: 'Water',
      from: 'Water at the start',
      to: 'Water at the end',
      rise: 'Rise',
      room: 'Room',
      pressure: 'Air pressure',
      pressureFrom: 'Pressure from',
      duration: 'Heating time, min:s',
      power: 'Mean power',
      voltage: 'Mean voltage',
      lid: 'Lid',
      vapour: 'Water lost as vapour',
      protocol: 'Protocol',
    },
    starts: { rest: 'rest start', warm: 'warm start' },
    weighed: 'weighed',
    allowed: 'allowance, not weighed',
    run: 'Run',
    protocol: (title: string, version: number) => `${title}, version ${version}`,
  },

  refused: {
    heading: 'What was not counted, and why',
    caption: 'Runs that do not count',
    none: 'Every run of this workbook was counted.',
    columns: ['Run', 'Heater and setting', 'Why it does not count'],
    kinds: { refused: 'refused', unfinished: 'not finished', excluded: 'excluded by hand' },
    label: (run: string) => `${run} (not counted)`,
    withCaption: 'Figures without and with the runs that were excluded by hand',
    withColumns: ['Setting', 'As reported', 'With the excluded', 'One future heating then', 'Excluded'],
    excluded: (run: string, value: string, hand: string, seen: string) =>
      `${run}, ${value}, by ${hand}, ${seen}`,
    seen: 'its result had been seen',
    unseen: 'before its result was seen',
  },

  warnings: {
    heading: 'Warnings',
    none: 'There are no warnings.',
    about: (where: string) => `About ${where}`,
  },

  digests: {
    heading: 'Digests of the raw data',
    caption: 'Digests of exports and protocols',
    intro:
      'SHA-256 of every imported export, kept byte for byte, and of the protocol as it stood when the run began.',
    columns: ['Run', 'File', 'Bytes', 'SHA-256'],
    protocol: (name: string, version: number) => `protocol ${name}, version ${version}`,
  },

  cautions: cautionTexts,

  method: methodTexts,

  closing: {
    heading: 'What this report is not',
    sentences: [
      'It makes no claim of accreditation, and no one but the named hands stands for its readings.',
      'If the data of this workbook are invented, the name of the workbook says so.',
    ],
    madeBy: (version: string) => `Made by heatledger ${version}.`,
  },
} as const;
