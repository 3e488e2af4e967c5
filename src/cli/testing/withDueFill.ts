import { type Bench, type Protocol, dueFill } from '../../protocols/index.js';
import { type RunRecord, type Workbook, listRuns, readRun } from '../../workbook/index.js';

/** Says which fill is due, where a protocol has several, and makes it the answer that Enter alone gives. */
export function withDueFill(protocol: Protocol, workbook: Workbook, run: RunRecord, bench: Bench): Protocol {
  if (protocol.fills === undefined) return protocol;
  const others = listRuns(workbook.dir)
    .filter((id) => id !== run.id)
    .map((id) => readRun(workbook.dir, id).run)
    .filter(({ heater, setting }) => heater === run.heater && setting === run.setting);
  const due = dueFill(protocol, others);
  if (due === null) return protocol;
  bench.say(`${due.words}.`);
  const steps = protocol.steps.map((step) =>
    step.kind === 'choice' && step.role === 'fill' ? { ...step, default: due.fill } : step,
  );
  return { ...protocol, steps };
}
