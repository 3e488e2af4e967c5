import { problem } from '../../errors/index.js';
import { logStartMs } from '../methods/courseOf.js';
import { methodContext } from '../methods/methodContext.js';
import { curveNotes } from './curveNotes.js';
import { fittedPart } from './fittedPart.js';
import { curveRoom, meterErrorOf } from './logErrors.js';
import { partsOf } from './partsOf.js';
import { placeLogs } from './placeLogs.js';
import type { CurveInputs, CurveOptions, RunCurves, SkippedFit } from './types.js';
import { absentParts, wantedParts } from './wantedParts.js';

/**
 * What the logged temperature of a run tells: models of a heated load fitted to its warm-up and its cool-down, with κ, UA and τ
 * as results that carry the errors of thermometer, wattmeter, scale, room and clocks from the same sources as everything else in
 * `book`. One and two nodes over heating and after-period, the cool-down from where the temperature falls steadily;
 * an approach where no power was logged, or on demand. What can't be fitted is listed with the reason.
 *
 * SI; times in seconds after switch-on, or after the first reading where nothing was switched.
 *
 * @throws `curve-no-temperature`, `curve-clocks`, `curve-other-protocol`, `curve-part-missing`, and what the fit of a
 * model that was asked for throws
 * @example
 * const settings = { zone: 'UTC', hands: [], units: 'si' };
 * const heater = { id: 'vat-warmer', settings: [{ id: 'full', control: 'steady' }] };
 * const workbook = { dir: '.', settings, instruments: new Map(), heaters: new Map([['vat-warmer', heater]]) };
 * const run = { id: 'vat-warmer-full-01', heater: 'vat-warmer', setting: 'full', instruments: {}, readings: [], marks: {} };
 * const protocol = { evaluates: 'efficiency', steps: [], allowances: [] };
 * curvesOfRun({ book: {}, workbook, run, protocol, powerLog: null, temperatureLog: null }) // throws 'curve-no-temperature'
 */
export function curvesOfRun(inputs: CurveInputs, options: CurveOptions = {}): RunCurves {
  const { book, workbook, run, protocol } = inputs;
  if (protocol.evaluates === 'hold' || protocol.evaluates === 'boil-off')
    throw problem('curve-other-protocol', { run: run.id, what: protocol.title }, { file: run.id });
  const context = methodContext(book, workbook, inputs);
  const powerless = options.model === 'coolDown' || options.model === 'approach';
  const placed = placeLogs(context, inputs, !powerless);
  const found = partsOf(context, placed);
  const { temperature, clocks } = placed;
  const zeroS = found.heating?.fromS ?? found.parts[0]?.stretch.fromS ?? 0;
  const endS = temperature.timesS.at(-1) ?? 0;
  const startMs = logStartMs(context, temperature) ?? Date.parse(run.startedAt);
  const room = curveRoom(context, startMs);
  const meter = meterErrorOf(context, placed, found.heating);
  const skipped: SkippedFit[] = [];
  const switchings = found.heating ? [found.heating.fromS, found.heating.toS] : [];
  const common = { room, meter, switchings, startMs };
  const fitted = wantedParts(found, options, zeroS, endS).flatMap(
    (part) => fittedPart(context, placed, { ...common, part }, { ...options, zeroS }, skipped) ?? [],
  );
  return {
    run,
    protocol,
    heater: context.heater,
    zero: found.heating ? 'switch-on' : 'first reading',
    log: { fromS: -zeroS, toS: endS - zeroS, readings: temperature.timesS.length },
    clocks,
    phases: {
      ...found.phases,
      phases: found.phases.phases.map((each) => ({
        ...each,
        fromS: each.fromS - zeroS,
        toS: each.toS - zeroS,
      })),
    },
    ambient: room && { kelvin: room.mean.value, words: room.words },
    parts: fitted.map(({ part }) => part),
    skipped: [...skipped, ...absentParts(found, options)],
    notes: [...curveNotes(context, fitted), ...new Set(context.warnings)],
  };
}
