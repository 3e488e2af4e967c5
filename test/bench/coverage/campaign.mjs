/** One campaign on the public road: what was typed becomes run records, these are evaluated and pooled into a figure. */
import { ASSUMED_RELATIVE_SPREAD, evaluateFigure, evaluateRun } from 'heatledger/evaluation';
import { beginEntry } from 'heatledger/protocols';
import { SourceBook } from 'heatledger/uncertainty';
import { readQuantity } from 'heatledger/units';
import { runFrom } from 'heatledger/workbook';
import { freshErrors, freshU, limits, sharedErrors } from './lab.mjs';
import { Draw } from './random.mjs';
import { typedReadings } from './readings.mjs';
import { heating, nominal } from './world.mjs';

const assumed = { relative: ASSUMED_RELATIVE_SPREAD, words: 'assumed' };
const startMs = Date.UTC(2026, 9, 5, 7, 10);
/** From one answer to the next. */
const pauseMs = 20_000;

/**
 * A run as its journal would tell it: every step of the procedure answered in turn, the marks as far apart as the
 * heating took.
 * @param {ReturnType<typeof import('./lab.mjs').openLab>} lab
 * @param {string} id @param {string} meter
 * @param {Readonly<Record<string, string>>} typed @param {number} durationS
 */
export function recordOf({ workbook, protocol, text }, id, meter, typed, durationS) {
  let ms = startMs;
  let onMs = startMs;
  const stamp = () => ({ at: new Date(ms).toISOString(), zone: workbook.settings.zone, hand: 'mr' });
  const begin = beginEntry(workbook, {
    run: id,
    heater: 'vat-warmer',
    setting: 'full',
    protocol,
    protocolText: text,
    instruments: { scale: 'scale', thermometer: 'thermometer', wattmeter: meter },
    hand: 'mr',
    at: new Date(ms),
  });
  const entries = [{ seq: 1, ...begin, prev: '0'.repeat(64) }];
  // Nobody is asked for a reading of an instrument that the run has not got.
  const asked = protocol.steps.filter(({ instrument }) => !instrument || begin.instruments[instrument]);
  const answers = asked.map((step) => {
    ms = step.role === 'switchOff' ? onMs + 1000 * durationS : ms + pauseMs;
    if (step.role === 'switchOn') onMs = ms;
    return entryOf(step, begin.instruments, typed[step.id], stamp());
  });
  for (const entry of [...answers, { event: 'end', ...stamp() }])
    entries.push({ seq: entries.length + 1, ...entry, prev: '0'.repeat(64) });
  return runFrom(entries);
}

function entryOf(step, instruments, typed, stamp) {
  const { id, kind } = step;
  if (kind === 'acknowledge' || kind === 'confirm' || kind === 'mark')
    return { event: kind, step: id, ...stamp };
  if (kind === 'choice') return { event: 'choice', step: id, value: step.default, ...stamp };
  if (typed === undefined) return { event: 'skip', step: id, ...stamp };
  const read = readQuantity(typed, { kind: step.quantity, unit: step.unit });
  return { event: 'reading', step: id, ...stamp, ...read, instrument: instruments[step.instrument] };
}

/** One heating with what is typed at it. */
function heatingSeen(draw, lab, shared, spread) {
  const fresh = freshErrors(draw, lab);
  const tables = 1 + shared.waterTables;
  const riseFactor = tables * (1 + shared.allowances.enthalpyRise) * (1 + fresh.allowances.enthalpyRise);
  const truth = heating(draw, { spread, riseFactor, bodyJ: fresh.bodyK * limits.bodyJPerK });
  return { truth, typed: typedReadings(truth, shared, fresh) };
}

/**
 * A campaign: its runs as evaluated and its figure, beside what is true. `future` is the true efficiency of one more
 * heating.
 * @param {ReturnType<typeof import('./lab.mjs').openLab>} lab
 * @param {{ runs: number, spread: number, shared: number }} cell
 * @param {number} seed @param {number} number
 */
export function campaign(lab, cell, seed, number) {
  const draw = new Draw(seed, number);
  const shared = sharedErrors(draw, lab, cell.shared);
  const meter = `meter-${String(cell.shared).replace('.', '')}`;
  const book = new SourceBook();
  const evaluations = Array.from({ length: cell.runs }, (_, i) => {
    const { truth, typed } = heatingSeen(draw, lab, shared, cell.spread * freshU);
    const run = recordOf(lab, `vat-warmer-full-${i + 1}`, meter, typed, truth.durationS);
    const inputs = { book, workbook: lab.workbook, run, protocol: lab.protocol };
    return evaluateRun({ ...inputs, powerLog: null, temperatureLog: null });
  });
  const figure = evaluateFigure(evaluations, 'water', assumed);
  const future = heatingSeen(draw, lab, shared, cell.spread * freshU).truth.efficiency;
  return { truth: nominal.efficiency, future, evaluations, figure };
}
