import { type Protocol, checkHeater, instrumentsOfKind, oneMoreHeater } from '../../protocols/index.js';
import { type RunRecord, type Workbook, instrumentKinds } from '../../workbook/index.js';
import type { TerminalBench } from '../TerminalBench.js';
import { choose } from './choose.js';
import type { TestArgs } from './TestArgs.js';

/** Which heater and setting: by option, or asked for; a new heater can be named on the spot. */
export async function heaterAndSetting(
  args: TestArgs,
  workbook: Workbook,
  bench: TerminalBench,
): Promise<{ heater: string; setting: string }> {
  const heaters = [...workbook.heaters.keys()];
  if (args.heater === undefined && heaters.length === 0) return oneMoreHeater(workbook, bench);
  const heater = args.heater ?? (await choose(bench, 'Which heater', [...heaters, 'new'], heaters[0]));
  if (args.heater === undefined && heater === 'new') return oneMoreHeater(workbook, bench);
  checkHeater(workbook, heater, args.setting);
  const settings = workbook.heaters.get(heater)?.settings.map((each) => each.id) ?? [];
  const setting =
    args.setting ??
    (settings.length === 1
      ? (settings[0] as string)
      : await choose(bench, 'Which setting', settings, settings[0]));
  return { heater, setting };
}

/** Which instruments: one alone of its kind is bound without a question. */
export async function bound(
  workbook: Workbook,
  protocol: Protocol,
  bench: TerminalBench,
): Promise<RunRecord['instruments']> {
  const chosen: Record<string, string> = {};
  for (const kind of instrumentKinds) {
    const known = instrumentsOfKind(workbook, kind);
    const used = protocol.steps.some((step) => step.kind === 'reading' && step.instrument === kind);
    if (known.length === 0 || !used) continue;
    chosen[kind] =
      known.length === 1 ? (known[0] as string) : await choose(bench, `Which ${kind}`, known, known[0]);
  }
  return chosen;
}
