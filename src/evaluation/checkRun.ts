import { problem } from '../errors/index.js';
import { type Protocol, markMs } from '../protocols/index.js';
import { readingsOf } from '../units/index.js';
import type { ReadingRecord, RunRecord, Workbook } from '../workbook/index.js';

/** Relative difference that the rounding of a unit conversion explains. */
const SAME = 1e-9;

/**
 * Holds a run against itself: each reading against what was typed, its step and its instrument; marks in their order;
 * nothing after the end but what may come then. The chain of digests alone does not prove that: anybody can make one.
 */
export function checkRun(workbook: Workbook, protocol: Protocol, run: RunRecord): void {
  const broken = (reason: string, line?: number) =>
    problem(
      'run-contradicts',
      { run: run.id, reason },
      { file: run.id, ...(line === undefined ? {} : { line }) },
    );
  const end = run.entries.findIndex((entry) => entry.event === 'end');
  const late = run.entries
    .slice(end + 1)
    .find((entry) => !['attach', 'exclude', 'include', 'end'].includes(entry.event));
  if (end >= 0 && late) throw broken('something was typed after its end', late.seq);
  const seen = new Set<string>();
  for (const reading of run.readings) {
    const step = protocol.steps.find((each) => each.id === reading.step);
    if (step?.kind !== 'reading') throw broken(`no step takes the reading "${reading.step}"`, reading.seq);
    if (!step.repeat && seen.has(step.id)) throw broken(`"${step.id}" was read twice`, reading.seq);
    seen.add(step.id);
    if (!saysTheSame(reading, step.quantity)) {
      throw broken(
        `"${reading.typed}" was typed, but ${reading.value} ${reading.unit} is recorded`,
        reading.seq,
      );
    }
    const instrument = reading.instrument === null ? undefined : workbook.instruments.get(reading.instrument);
    if (instrument && instrument.kind !== step.instrument) {
      throw broken(
        `"${step.id}" was read with a ${instrument.kind}, a ${step.instrument} is needed`,
        reading.seq,
      );
    }
  }
  const [on, off] = [markMs(protocol, run, 'switchOn'), markMs(protocol, run, 'switchOff')];
  if (on !== null && off !== null && off <= on)
    throw problem('times-backward', { run: run.id }, { file: run.id });
}

function saysTheSame(reading: ReadingRecord, kind: Parameters<typeof readingsOf>[1]['kind']): boolean {
  try {
    const scale = Math.max(1e-12, Math.abs(reading.si));
    return readingsOf(reading.typed, { kind, unit: reading.unit }).some(
      (each) => Math.abs(each.si - reading.si) <= SAME * scale,
    );
  } catch {
    return false;
  }
}
