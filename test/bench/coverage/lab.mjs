/**
 * The laboratory of the coverage bench: its instruments as a person would write them into the workbook, and the
 * errors they really have, drawn from the distributions that such records state. The procedure is the shipped one.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { findProtocol } from 'heatledger/protocols';
import { createWorkbook, openWorkbook, saveHeater, saveInstrument } from 'heatledger/workbook';

/** Limits of the records, in kg, K and J/K. The steps are so fine that readings move over many of them. */
export const limits = {
  scaleKg: 0.003,
  scaleStepKg: 0.0001,
  thermometerStepK: 0.01,
  /** Standard uncertainty of each point of the thermometer's certificate. */
  thermometerK: 0.02,
  counterStepKWh: 0.0001,
  bodyJPerK: 600,
};

/** Points of the certificates: where, what is added to the reading. */
export const thermometerPoints = [
  { at: 5, correction: 0.04 },
  { at: 60, correction: -0.05 },
];
export const meterPoints = [
  { at: 500, correction: -0.004 },
  { at: 1500, correction: 0.003 },
];

/**
 * Expanded uncertainty (k = 2) of the points of each meter's certificate, relative. With the errors that all kits share
 * these make the shared uncertainty of an efficiency 0.5, 1 and 3 times what is fresh in a run.
 */
export const meters = { 0.5: 0.00246, 1: 0.00825, 3: 0.027 };
/** What is fresh in a run, as a standard uncertainty of its efficiency: the measure of all spreads. */
export const freshU = 0.00271;

/** What the program says of itself: the tables of water, and two weighings of one load, a fifth of the limit. */
const tables = 0.0004;
const repeatOfLimit = 0.2;

const percent = (ratio) => `${(100 * ratio).toFixed(4)} %`;

/** The records of the laboratory, as text with units. */
export function records() {
  const certificate = { number: '(invented)', date: '2026-03-02', due: '2027-03-02', coverageFactor: 2 };
  const meter = ([shared, expanded]) => ({
    schema: 1,
    id: `meter-${String(shared).replace('.', '')}`,
    kind: 'wattmeter',
    name: 'plug-in wattmeter',
    resolution: `${limits.counterStepKWh} kWh`,
    certificate: {
      ...certificate,
      points: meterPoints.map(({ at, correction }) => ({
        at: `${at} W`,
        correction: percent(correction),
        expandedUncertainty: percent(expanded),
      })),
    },
  });
  const scale = {
    schema: 1,
    id: 'scale',
    kind: 'scale',
    name: 'bench scale',
    resolution: `${1000 * limits.scaleStepKg} g`,
    limits: { absolute: `${1000 * limits.scaleKg} g` },
  };
  const thermometer = {
    schema: 1,
    id: 'thermometer',
    kind: 'thermometer',
    name: 'probe thermometer',
    resolution: `${limits.thermometerStepK} K`,
    certificate: {
      ...certificate,
      points: thermometerPoints.map(({ at, correction }) => ({
        at: `${at} °C`,
        correction: `${correction} K`,
        expandedUncertainty: `${2 * limits.thermometerK} K`,
      })),
    },
  };
  const heater = {
    schema: 1,
    id: 'vat-warmer',
    name: '900 W vat warmer',
    ratedPower: '900 W',
    bodyHeatCapacity: { value: `${limits.bodyJPerK} J/K`, halfWidth: '100 J/K' },
    settings: [{ id: 'full', control: 'steady' }],
  };
  const settings = {
    schema: 1,
    name: 'hill dairy (invented)',
    zone: 'Europe/Vienna',
    pressure: '1013.25 hPa',
    ambient: '17 °C',
    hands: [{ id: 'mr', name: 'M. R.' }],
  };
  return { settings, heater, instruments: [scale, thermometer, ...Object.entries(meters).map(meter)] };
}

/** Writes the laboratory's workbook into a new folder, and opens it with the procedure; the folder is gone again. */
export function openLab() {
  const folder = mkdtempSync(join(tmpdir(), 'heatledger-coverage-'));
  try {
    const dir = join(folder, 'workbook');
    const { settings, heater, instruments } = records();
    createWorkbook(dir, settings);
    saveHeater(dir, heater);
    for (const instrument of instruments) saveInstrument(dir, instrument);
    const workbook = openWorkbook(dir);
    const { protocol, text } = findProtocol('water-heating', null);
    return { workbook, protocol, text };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * Errors of the doubts that the procedure states, each rectangular: those that all runs share, or those that are fresh.
 * Summed by what they act on: kelvins on a temperature, a relative error on the rise of enthalpy.
 * @param {import('./random.mjs').Draw} draw @param {ReturnType<typeof openLab>} lab @param {boolean} fresh
 */
function allowances(draw, { protocol }, fresh) {
  const sums = { startTemperature: 0, endTemperature: 0, enthalpyRise: 0 };
  for (const { on, scope, when, relative, halfWidthSi } of protocol.allowances) {
    // The heater is steady, and the vessel does not count in the efficiency of the water.
    if (when === 'not-steady' || on === 'wettedShare' || fresh !== (scope === 'run' || scope === 'reading'))
      continue;
    if (!(on in sums) || relative !== (on === 'enthalpyRise'))
      throw new Error(`The bench does not know how to draw an allowance on ${on}.`);
    sums[on] += draw.within(halfWidthSi);
  }
  return sums;
}

/**
 * Errors that all runs of a campaign share. Each is what has to be added to a reading (or multiplied in as 1 + error) to
 * have the truth.
 * @param {import('./random.mjs').Draw} draw @param {ReturnType<typeof openLab>} lab @param {number} shared which meter
 */
export function sharedErrors(draw, lab, shared) {
  return {
    scaleEmptyKg: draw.within(limits.scaleKg),
    scaleFullKg: draw.within(limits.scaleKg),
    thermometerK: thermometerPoints.map(() => draw.normal(limits.thermometerK)),
    meter: meterPoints.map(() => draw.normal(meters[shared] / 2)),
    waterTables: draw.within(tables),
    allowances: allowances(draw, lab, false),
  };
}

/** Errors that are fresh in every run; rounding is done by the displays, from where the counter happens to stand. */
export function freshErrors(draw, lab) {
  const repeat = () => draw.within(repeatOfLimit * limits.scaleKg);
  return {
    emptyKg: repeat(),
    fullKg: repeat(),
    finalKg: repeat(),
    bodyK: draw.within(lab.protocol.limits.maximumRestDifference),
    counterKWh: draw.between(10, 20),
    allowances: allowances(draw, lab, true),
  };
}
