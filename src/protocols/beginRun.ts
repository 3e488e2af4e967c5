import { problem } from '../errors/index.js';
import {
  type InstrumentKind,
  type NewEntry,
  type RunRecord,
  type Workbook,
  instrumentKinds,
  sha256,
} from '../workbook/index.js';
import type { Protocol } from './schema.js';

export interface RunPlan {
  readonly run: string;
  readonly heater: string;
  readonly setting: string;
  readonly protocol: Protocol;
  readonly protocolText: string;
  readonly instruments: RunRecord['instruments'];
  readonly hand: string;
  readonly at: Date;
}

/**
 * Checks a plan against the workbook and makes the first entry of its run; writes nothing.
 *
 * @example
 * beginEntry({ heaters: new Map() }, { heater: 'kettle', setting: 'full' }) // throws 'heater-unknown'
 */
export function beginEntry(workbook: Workbook, plan: RunPlan): Extract<NewEntry, { event: 'begin' }> {
  checkHeater(workbook, plan.heater, plan.setting);
  if (!workbook.settings.hands.some((hand) => hand.id === plan.hand)) {
    const known = workbook.settings.hands.map((hand) => hand.id).join(', ');
    throw problem('hand-unknown', { got: plan.hand, known }, { key: '--hand' });
  }
  const instruments: Record<string, string> = {};
  for (const kind of instrumentKinds) {
    const id = plan.instruments[kind];
    if (id !== undefined) instruments[kind] = checkInstrument(workbook, kind, id);
    else if (isNeeded(plan.protocol, kind))
      throw problem(
        'instrument-missing',
        { kind },
        {},
        `Add one with: heatledger instrument add --kind ${kind}`,
      );
  }
  return {
    event: 'begin',
    schema: 1,
    at: plan.at.toISOString(),
    zone: workbook.settings.zone,
    hand: plan.hand,
    run: plan.run,
    heater: plan.heater,
    setting: plan.setting,
    protocol: { name: plan.protocol.name, version: plan.protocol.version, sha256: sha256(plan.protocolText) },
    instruments,
  };
}

/**
 * An unknown heater or setting is an error that names those there are.
 *
 * @example
 * const heaters = new Map([['vat-warmer', { settings: [{ id: 'full' }] }]]);
 * checkHeater({ heaters }, 'vat-warmer', 'full') // => undefined
 * checkHeater({ heaters }, 'vat-warmer', 'hot') // throws 'setting-unknown'
 */
export function checkHeater(workbook: Workbook, heater: string, setting?: string): void {
  const found = workbook.heaters.get(heater);
  if (!found) {
    const known = [...workbook.heaters.keys()].join(', ') || 'none yet';
    throw problem(
      'heater-unknown',
      { got: heater, known },
      { key: '--heater' },
      'Add one with: heatledger heater add',
    );
  }
  if (setting !== undefined && !found.settings.some((each) => each.id === setting)) {
    const known = found.settings.map((each) => each.id).join(', ');
    throw problem('setting-unknown', { heater, got: setting, known }, { key: '--setting' });
  }
}

function checkInstrument(workbook: Workbook, kind: InstrumentKind, id: string): string {
  const found = workbook.instruments.get(id);
  if (!found) {
    throw problem(
      'instrument-unknown',
      { got: id, known: [...workbook.instruments.keys()].join(', ') || 'none' },
      {},
    );
  }
  if (found.kind !== kind)
    throw problem('instrument-of-other-kind', { got: id, is: found.kind, expected: kind }, {});
  return id;
}

function isNeeded(protocol: Protocol, kind: InstrumentKind): boolean {
  return protocol.steps.some((step) => step.kind === 'reading' && step.instrument === kind && !step.optional);
}

/**
 * Instruments of a kind; one alone is bound without a question.
 *
 * @example
 * const instruments = new Map([['scale-1', { id: 'scale-1', kind: 'scale' }]]);
 * instrumentsOfKind({ instruments }, 'scale') // => ['scale-1']
 */
export function instrumentsOfKind(workbook: Workbook, kind: InstrumentKind): string[] {
  return [...workbook.instruments.values()].filter((each) => each.kind === kind).map((each) => each.id);
}
