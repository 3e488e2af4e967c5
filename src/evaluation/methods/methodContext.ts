import { problem } from '../../errors/index.js';
import type { SourceBook } from '../../uncertainty/index.js';
import type { Workbook } from '../../workbook/index.js';
import type { RunContext } from '../RunContext.js';
import type { StoredRun } from './types.js';

/** The context of a stored run; errors for a heater or setting that the workbook doesn't have. */
export function methodContext(
  book: SourceBook,
  workbook: Workbook,
  { run, protocol }: StoredRun,
): RunContext {
  const heater = workbook.heaters.get(run.heater);
  if (!heater) {
    const known = [...workbook.heaters.keys()].join(', ') || 'none';
    throw problem('heater-unknown', { got: run.heater, known }, { file: run.id });
  }
  const setting = heater.settings.find((each) => each.id === run.setting);
  if (!setting) {
    const known = heater.settings.map((each) => each.id).join(', ');
    throw problem('setting-unknown', { heater: heater.id, got: run.setting, known }, { file: run.id });
  }
  return { book, workbook, run, protocol, heater, control: setting.control, warnings: [] };
}
