import { problem } from '../../errors/index.js';
import { type Log, type ReadOptions, readExport } from '../../logs/index.js';
import { parseProtocol } from '../../protocols/index.js';
import { SourceBook } from '../../uncertainty/index.js';
import {
  type AttachmentRecord,
  type RunRecord,
  readAttachment,
  readRun,
  readRunProtocol,
  sha256,
  type Workbook,
} from '../../workbook/index.js';
import { checkRun } from '../checkRun.js';
import { curvesOfRun } from './curvesOfRun.js';
import type { CurveOptions, RunCurves } from './types.js';

/**
 * The curves of a run as it lies in the workbook, its exports read the way they were read when they came in; see
 * `curvesOfRun`. Sources are taken from `book`, so that κ and UA go on into what else is evaluated with it. Changes
 * nothing on disk. A run that is not finished will do, if its logs are there.
 *
 * @throws `run-unknown`, `protocol-changed`, `run-contradicts`, and what `curvesOfRun` throws
 * @example
 * const workbook = { dir: emptyFolder(), settings: {}, instruments: new Map(), heaters: new Map() };
 * curvesOfStored(workbook, 'vat-warmer-full-01') // throws 'run-unknown'
 */
export function curvesOfStored(
  workbook: Workbook,
  id: string,
  options: CurveOptions = {},
  book: SourceBook = new SourceBook(),
): RunCurves {
  const { run, warnings } = readRun(workbook.dir, id);
  const text = readRunProtocol(workbook.dir, id);
  const file = `protocol of run ${id}`;
  if (sha256(text) !== run.protocol.sha256) throw problem('protocol-changed', { run: id }, { file });
  const protocol = parseProtocol(text, file);
  checkRun(workbook, protocol, run);
  const powerLog = logOf(workbook.dir, run, 'powerLog');
  const temperatureLog = logOf(workbook.dir, run, 'temperatureLog');
  const curves = curvesOfRun({ book, workbook, run, protocol, powerLog, temperatureLog }, options);
  return { ...curves, notes: [...warnings, ...curves.notes] };
}

function logOf(dir: string, run: RunRecord, role: AttachmentRecord['role']): Log | null {
  const kept = run.attachments.find((each) => each.role === role);
  if (!kept) return null;
  const bytes = readAttachment(dir, run.id, kept.file, kept.sha256);
  return readExport(bytes, { ...(kept.options as ReadOptions), fileName: kept.originalName });
}
