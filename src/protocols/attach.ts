import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { problem } from '../errors/index.js';
import { type Log, type ReadOptions, onOffEdges, readExport } from '../logs/index.js';
import type { NewEntry, RunRecord } from '../workbook/index.js';
import { exportPath, readProblem } from './exportPath.js';
import type { Protocol } from './schema.js';

/** Seconds by which a bench mark and a logger's clock may differ before a log is said not to cover the run. */
const CLOCK_TOLERANCE_S = 120;

/** What the marks of a protocol bound, in words. */
const ACTIONS = {
  efficiency: 'heating',
  'cool-down': 'cool-down',
  hold: 'hold',
  'boil-off': 'boiling',
} as const;

export type LogRole = 'powerLog' | 'temperatureLog';
/** What the moment of a mark stands for: `begin` and `end` bound a cool-down or a hold. */
export type MarkRole = 'startLog' | 'switchOn' | 'switchOff' | 'begin' | 'end';

/** An export that was read and fits the run, not yet kept. */
export interface ReadyExport {
  readonly bytes: Uint8Array;
  readonly log: Log;
  readonly role: LogRole;
  readonly name: string;
  readonly options: ReadOptions;
}

/**
 * Reads a file into bytes, with a sentence when that fails.
 *
 * @example
 * readBytes('/nowhere/meter.csv') // throws 'file-missing'
 */
export function readBytes(path: string, base = process.cwd()): Uint8Array {
  const file = exportPath(path, base);
  try {
    return readFileSync(file);
  } catch (error) {
    throw readProblem(error, path);
  }
}

/**
 * Reads an export and checks that it can belong to the run: the columns its role needs, and the whole heating
 * interval. Keeps nothing.
 *
 * @example
 * const { protocol } = findProtocol('water-heating', null);
 * const begin = { event: 'begin', run: 'vat-warmer-full-01', heater: 'vat-warmer', setting: 'full', instruments: {} };
 * const { run } = new MemoryKeeper(begin);
 * const bytes = new TextEncoder().encode('t [s],P [W]\n0,0\n10,900\n20,900\n30,900\n40,0\n50,0\n');
 * readyExport(bytes, 'meter.csv', run, protocol, 'Europe/Vienna').role // => 'powerLog'
 * readyExport(new Uint8Array(), 'meter.csv', run, protocol, 'Europe/Vienna') // throws 'log-empty'
 */
export function readyExport(
  bytes: Uint8Array,
  name: string,
  run: RunRecord,
  protocol: Protocol,
  zone: string,
  wanted: { readonly role?: LogRole; readonly options?: ReadOptions } = {},
): ReadyExport {
  // The zone is kept with the reading, so that the same export reads the same way wherever the workbook goes.
  const options: ReadOptions = { zone, ...wanted.options };
  const log = readExport(bytes, { ...options, fileName: name });
  const role = wanted.role ?? (log.powerW || log.energyJ ? 'powerLog' : 'temperatureLog');
  if (role === 'powerLog' && !log.powerW && !log.energyJ)
    throw problem('log-lacks', { what: 'power or energy' }, { file: name });
  if (role === 'temperatureLog' && !log.temperatureK)
    throw problem('log-lacks', { what: 'temperature' }, { file: name });
  checkCover(log, role, name, run, protocol);
  return { bytes, log, role, name: basename(name), options };
}

/**
 * Time of a mark by its role, in epoch milliseconds.
 *
 * @example
 * const { protocol } = findProtocol('water-heating', null);
 * markMs(protocol, { marks: { switchOn: '2026-10-05T09:23:56Z' } }, 'switchOn') // => 1791192236000
 * markMs(protocol, { marks: {} }, 'switchOn') // => null
 */
export function markMs(protocol: Protocol, run: RunRecord, role: MarkRole): number | null {
  const step = protocol.steps.find((each) => each.kind === 'mark' && each.role === role);
  const at = step ? run.marks[step.id] : undefined;
  return at === undefined ? null : Date.parse(at);
}

function refuseCutHeating(log: Log, name: string): void {
  const edges = onOffEdges(log);
  if (edges.startsOn) {
    throw problem('log-does-not-cover', { what: 'it begins with the heater already on' }, { file: name });
  }
  if (edges.endsOn) {
    throw problem('log-does-not-cover', { what: 'it ends with the heater still on' }, { file: name });
  }
}

function checkCover(log: Log, role: LogRole, name: string, run: RunRecord, protocol: Protocol): void {
  if (role === 'powerLog' && !log.powerW) return;
  // While a load is held the heater may be on before and after; nobody switches it.
  if (role === 'powerLog' && protocol.evaluates !== 'hold') refuseCutHeating(log, name);
  const on = markMs(protocol, run, 'switchOn') ?? markMs(protocol, run, 'begin');
  const off = markMs(protocol, run, 'switchOff') ?? markMs(protocol, run, 'end');
  const whole = ACTIONS[protocol.evaluates];
  const lastS = log.timesS[log.timesS.length - 1] ?? 0;
  if (on === null || off === null) return;
  if (log.startUtcMs === null) {
    if (role === 'powerLog' && lastS < (off - on) / 1000 - CLOCK_TOLERANCE_S) {
      throw problem(
        'log-does-not-cover',
        {
          what: `it is ${Math.round(lastS)} s long, the ${whole} took ${Math.round((off - on) / 1000)} s`,
          whole,
        },
        { file: name },
      );
    }
    return;
  }
  const first = log.startUtcMs;
  const last = first + lastS * 1000;
  // A power log must hold the whole heating; one of temperature may be shorter, but not of another time.
  const late = (first - (role === 'powerLog' ? on : off)) / 1000;
  const early = ((role === 'powerLog' ? off : on) - last) / 1000;
  if (late > CLOCK_TOLERANCE_S || early > CLOCK_TOLERANCE_S) {
    const time = (ms: number) => `${new Date(ms).toISOString().slice(0, 19)}Z`;
    throw problem(
      'log-does-not-cover',
      {
        what: `it runs from ${time(first)} to ${time(last)}, the ${whole} from ${time(on)} to ${time(off)}`,
        whole,
      },
      { file: name },
      'Is it the export of another run, or is the time zone another one (--zone)?',
    );
  }
}

/**
 * The journal entry of an export that has just been stored.
 *
 * @example
 * const ready = { bytes: new Uint8Array(3), role: 'powerLog', name: 'meter.csv', options: {}, log: { mapping: null } };
 * const stored = { file: 'exports/0123-meter.csv', sha256: '0123' };
 * const entry = attachEntry(ready, stored, { at: '2026-10-05T09:56:19Z', zone: 'UTC', hand: 'mr' });
 * [entry.event, entry.originalName, entry.bytes] // => ['attach', 'meter.csv', 3]
 */
export function attachEntry(
  ready: ReadyExport,
  stored: { readonly file: string; readonly sha256: string },
  by: { readonly at: string; readonly zone: string; readonly hand: string; readonly step?: string },
): NewEntry {
  return {
    event: 'attach',
    at: by.at,
    zone: by.zone,
    hand: by.hand,
    ...(by.step !== undefined ? { step: by.step } : {}),
    role: ready.role,
    file: stored.file,
    originalName: ready.name,
    bytes: ready.bytes.length,
    sha256: stored.sha256,
    options: { ...ready.options } as Record<string, unknown>,
    mapping: ready.log.mapping,
  };
}
