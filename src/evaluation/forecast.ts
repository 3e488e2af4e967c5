import type { Protocol, ReadingRole } from '../protocols/index.js';
import { SourceBook } from '../uncertainty/index.js';

import type { Heater, ReadingRecord, RunRecord, Workbook } from '../workbook/index.js';
import { ASSUMED_RELATIVE_SPREAD, type SpreadAssumption, evaluateFigure } from './evaluateFigure.js';
import { evaluateRun } from './evaluateRun.js';
import type { Figure } from './types.js';

export interface Plan {
  readonly workbook: Workbook;
  readonly protocol: Protocol;
  readonly heater: Heater;
  readonly setting: string;
  readonly instruments: RunRecord['instruments'];
  readonly waterKg: number;
  readonly riseK: number;
  readonly startK: number;
  /** Power of the heater; only the meter's errors in watts depend on it. */
  readonly powerW: number;
  /** What the efficiency will be, roughly. */
  readonly efficiency: number;
  readonly weighAfter: boolean;
  readonly lid: string | null;
  readonly vesselKg: number;
  readonly runs: number;
}

const ASSUMED: SpreadAssumption = { relative: ASSUMED_RELATIVE_SPREAD, words: 'assumed' };

/**
 * The figure that a plan would give if everything went as expected: a made-up run with the readings it would have,
 * put through the same evaluation as a real one. Its intervals are the forecast.
 *
 * @example
 * const reading = (role, instrument) => ({ id: role, kind: 'reading', role, instrument });
 * const mark = (role) => ({ id: role, kind: 'mark', role });
 * const protocol = {
 *   name: 'short', version: 1, start: 'rest', headline: 'water', allowances: [],
 *   limits: { minimumRise: 30, maximumEnd: 353.15, minimumRuns: 3, maximumRestDifference: 2 },
 *   steps: [
 *     reading('emptyMass', 'scale'), reading('fullMass', 'scale'), reading('startTemperature', 'thermometer'),
 *     mark('switchOn'), mark('switchOff'), reading('endTemperature', 'thermometer'), reading('energyAfter', 'wattmeter'),
 *   ],
 * };
 * const instrument = (kind, resolution, limits) => [kind, { id: kind, kind, name: kind, assumed: true, resolution, limits }];
 * const wattmeter = instrument('wattmeter', 36000, { ofReading: 0.02 });
 * const others = [instrument('thermometer', 0.1, { absolute: 0.5 }), instrument('scale', 0.001, { absolute: 0.005 })];
 * const heater = { id: 'vat-warmer', settings: [{ id: 'full', control: 'steady' }] };
 * const workbook = {
 *   settings: { pressure: 101325 }, instruments: new Map([wattmeter, ...others]), heaters: new Map([[heater.id, heater]]),
 * };
 * const plan = {
 *   workbook, protocol, heater, setting: 'full', waterKg: 1.5, riseK: 40, startK: 288.15, powerW: 900, efficiency: 0.56,
 *   instruments: { wattmeter: 'wattmeter', thermometer: 'thermometer', scale: 'scale' }, weighAfter: false, lid: null,
 *   vesselKg: 1.1, runs: 1,
 * };
 * halfWidth(forecast(plan)) // => 0.05
 * halfWidth(forecast({ ...plan, waterKg: 3 })) // => 0.04
 */
export function forecast(plan: Plan, spread: SpreadAssumption = ASSUMED): Figure {
  const run = expectedRun(plan);
  // One book for all runs of the plan, as for those of a workbook: they share their instruments.
  const book = new SourceBook();
  const evaluations = Array.from({ length: plan.runs }, (_, i) =>
    evaluateRun({
      book,
      workbook: plan.workbook,
      run: { ...run, id: `plan-${i + 1}` },
      protocol: plan.protocol,
      powerLog: null,
      temperatureLog: null,
    }),
  );
  return evaluateFigure(evaluations, plan.protocol.headline, spread) as Figure;
}

const WATER_J_PER_KG_K = 4186;

function expectedRun(plan: Plan): RunRecord {
  const energyJ = (plan.waterKg * WATER_J_PER_KG_K * plan.riseK) / plan.efficiency;
  const durationMs = Math.round((energyJ / plan.powerW) * 1000);
  const begin = Date.UTC(2026, 0, 1);
  const at = (ms: number) => new Date(begin + ms).toISOString();
  const values: Partial<Record<ReadingRole, number>> = {
    emptyMass: plan.vesselKg,
    fullMass: plan.vesselKg + plan.waterKg,
    startTemperature: plan.startK,
    endTemperature: plan.startK + plan.riseK,
    ambientTemperature: plan.startK,
    bodyTemperature: plan.startK,
    energyBefore: 0,
    energyAfter: energyJ,
    ...(plan.weighAfter ? { finalMass: plan.vesselKg + plan.waterKg * 0.997 } : {}),
  };
  const readings: ReadingRecord[] = [];
  const choices: Record<string, string> = {};
  const marks: Record<string, string> = {};
  plan.protocol.steps.forEach((step, i) => {
    if (step.kind === 'mark') marks[step.id] = at(step.role === 'switchOff' ? durationMs + 1000 : 1000);
    if (step.kind === 'choice' && step.role === 'lid' && plan.lid !== null) choices[step.id] = plan.lid;
    const si = step.kind === 'reading' && step.role !== undefined ? values[step.role] : undefined;
    const instrument = step.kind === 'reading' ? plan.instruments[step.instrument] : undefined;
    if (si === undefined || instrument === undefined) return;
    readings.push({
      step: step.id,
      seq: i + 1,
      at: at(durationMs + 60_000),
      hand: '',
      typed: '',
      unit: '',
      value: si,
      si,
      instrument,
    });
  });
  return {
    id: 'plan-1',
    heater: plan.heater.id,
    setting: plan.setting,
    protocol: { name: plan.protocol.name, version: plan.protocol.version, sha256: '' },
    instruments: plan.instruments,
    hand: '',
    zone: 'UTC',
    startedAt: at(0),
    readings,
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

/**
 * Half of the width of a figure's prediction interval, in the unit of the efficiency.
 *
 * @example
 * halfWidth({ prediction: { interval: [0.51, 0.6] } }) // => 0.045
 */
export function halfWidth(figure: Figure): number {
  return (figure.prediction.interval[1] - figure.prediction.interval[0]) / 2;
}
