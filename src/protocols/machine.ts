import type { RunRecord } from '../workbook/index.js';
import type { Protocol, Step } from './schema.js';

/** True where the run holds an answer to the step. A repeated step is answered once it was left empty. */
export function isAnswered(step: Step, run: RunRecord): boolean {
  if (run.skipped.includes(step.id)) return true;
  switch (step.kind) {
    case 'acknowledge':
    case 'confirm':
    case 'mark':
      return run.marks[step.id] !== undefined;
    case 'choice':
      return run.choices[step.id] !== undefined;
    case 'reading':
      return !step.repeat && run.readings.some((reading) => reading.step === step.id);
    case 'note':
      return run.notes.some((note) => note.step === step.id);
    case 'attach':
      return run.attachments.some((attachment) => attachment.role === step.role);
  }
}

/** An optional reading whose instrument the run doesn't have is not asked for. */
export function isAsked(step: Step, run: RunRecord): boolean {
  return !(step.kind === 'reading' && step.optional && run.instruments[step.instrument] === undefined);
}

/**
 * The step that comes next: the first that is asked and not answered, null when the protocol is through. Nothing
 * but the journal decides, so a resumed run goes on exactly where it stopped.
 *
 * @example
 * const { protocol } = findProtocol('water-heating', null);
 * const begin = { event: 'begin', run: 'vat-warmer-full-01', heater: 'vat-warmer', setting: 'full', instruments: {} };
 * const keeper = new MemoryKeeper(begin);
 * nextStep(protocol, keeper.run).id // => 'cautions'
 * keeper.append({ event: 'acknowledge', step: 'cautions', at: '2026-10-05T09:10:47Z' });
 * nextStep(protocol, keeper.run).id // => 'atRest'
 */
export function nextStep(protocol: Protocol, run: RunRecord): Step | null {
  return protocol.steps.find((step) => isAsked(step, run) && !isAnswered(step, run)) ?? null;
}

/** The last step before this one that was asked, where `back` leads; null at the first. */
export function stepBefore(protocol: Protocol, run: RunRecord, step: Step): Step | null {
  const index = protocol.steps.findIndex((each) => each.id === step.id);
  // A repeated step with readings already kept goes back to itself: the last readings are what was just typed.
  if (step.kind === 'reading' && step.repeat && run.readings.some((reading) => reading.step === step.id))
    return step;
  for (let i = index - 1; i >= 0; i--) {
    const before = protocol.steps[i] as Step;
    if (isAsked(before, run)) return before;
  }
  return null;
}
