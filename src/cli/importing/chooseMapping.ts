import { closeSync, openSync, readSync } from 'node:fs';
import type { ReadOptions } from '../../logs/index.js';
import type { LogRole } from '../../protocols/index.js';
import {
  type Mapping,
  type RunRecord,
  type Workbook,
  listMappings,
  readMapping,
} from '../../workbook/index.js';
import { type CommonArgs, theWorkbook } from '../Outcome.js';
import { HEAD_BYTES, readable, refuseContradiction, unfit } from './fitting.js';
import type { ImportArgs } from './ImportArgs.js';
import { type SavedOptions, savedOptions } from './savedOptions.js';

/** How an export is to be read: the options, and the saved mapping they come from if there is one. */
export interface Plan {
  /** What was stated, by a person now or when the mapping was saved. */
  readonly stated: ReadOptions;
  /** What the reader is given. */
  readonly options: ReadOptions;
  readonly saved: { readonly name: string; readonly mapping: Mapping } | null;
}

/**
 * The options an export is read with. A saved mapping is taken by name, or because the run's wattmeter or thermometer
 * has one; what the export itself says against it is an error.
 */
export function chooseMapping(
  args: ImportArgs,
  typed: ReadOptions,
  path: string,
  context: { readonly workbook: Workbook | null; readonly run: RunRecord | null },
): Plan {
  const { workbook, run } = context;
  const lab: ReadOptions = workbook === null ? {} : { zone: workbook.settings.zone };
  const plain: Plan = { stated: typed, options: { ...lab, ...typed }, saved: null };
  if (args.like === 'none') return plain;
  const file = args.file as string;
  const head = () => headOf(path);
  const candidates = args.like === undefined ? ofInstruments(args, workbook, run) : named(args, args.like);
  const tried = candidates.map(({ role, name, mapping }) => {
    const { stated, settled } = savedOptions(mapping, typed);
    return {
      role,
      name,
      mapping,
      stated: { ...lab, ...stated },
      settled: { ...lab, ...settled },
      said: stated,
    };
  });
  const chosen =
    tried.length < 2 && (args.like !== undefined || args.as !== undefined)
      ? tried[0]
      : fitting(head(), tried, plain);
  if (!chosen) return plain;
  refuseContradiction(head(), file, chosen.name, chosen);
  return {
    stated: chosen.said,
    options: chosen.settled,
    saved: { name: chosen.name, mapping: chosen.mapping },
  };
}

interface Candidate {
  readonly role: LogRole | null;
  readonly name: string;
  readonly mapping: Mapping;
}

function named(args: CommonArgs, name: string): Candidate[] {
  return [{ role: null, name, mapping: readMapping(theWorkbook(args).dir, name) }];
}

/** Mappings that are called as the instruments of the run are. */
function ofInstruments(args: ImportArgs, workbook: Workbook | null, run: RunRecord | null): Candidate[] {
  if (workbook === null || run === null) return [];
  const { wattmeter, thermometer } = run.instruments;
  const known = listMappings(workbook.dir);
  const both: readonly (readonly [LogRole, string | undefined])[] = [
    ['powerLog', wattmeter],
    ['temperatureLog', thermometer],
  ];
  return both.flatMap(([role, name]) => {
    const wanted = args.as === undefined || role === `${args.as}Log`;
    if (!wanted || name === undefined || !known.includes(name)) return [];
    return [{ role, name, mapping: readMapping(workbook.dir, name) }];
  });
}

/**
 * Which of two instruments an export is of, where nobody says so: that of the quantity it shows, else the first whose
 * mapping reads it, else the first.
 */
function fitting<C extends Candidate & SavedOptions>(
  head: Uint8Array,
  candidates: readonly C[],
  plain: Plan,
): C | undefined {
  if (candidates.length === 0) return undefined;
  const seen = readable(head, plain.options);
  if (seen) {
    const role: LogRole = seen.powerW || seen.energyJ ? 'powerLog' : 'temperatureLog';
    return candidates.find((each) => each.role === role);
  }
  return candidates.find((each) => readable(head, each.settled) !== null) ?? candidates[0];
}

function headOf(path: string): Uint8Array {
  const head = new Uint8Array(HEAD_BYTES);
  const fd = openSync(path, 'r');
  try {
    const size = readSync(fd, head, 0, head.length, 0);
    // Whole lines, so that no letter of two bytes is cut; in UTF-16 every letter has two.
    const cut = size === head.length && !head.includes(0) ? head.lastIndexOf(10) + 1 : size;
    return head.subarray(0, cut || size);
  } finally {
    closeSync(fd);
  }
}

/** Runs a reading; where a saved mapping doesn't fit, the error says so. */
export async function withMapping<T>(plan: Plan, read: () => T | Promise<T>): Promise<T> {
  try {
    return await read();
  } catch (error) {
    throw plan.saved === null ? error : unfit(error, plan.saved.name);
  }
}
