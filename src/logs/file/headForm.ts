import { HeatledgerError } from '../../errors/index.js';
import { readBody } from '../readBody.js';
import { resolveTimes } from '../resolveTimes.js';
import type { ReaderSetup } from '../scan/RowReader.js';
import type { ReadOptions, TimeForm } from '../types.js';
import { Irregular } from './Irregular.js';

/** The form of the times as the first rows show it; where they leave it open, or are wrong, all rows must be seen. */
export function headForm(setup: ReaderSetup, head: Uint8Array, options: ReadOptions): TimeForm {
  const { layout, assignment, encoding, file } = setup;
  try {
    const source = { bytes: head, encoding, head: '', endsWithLineFeed: true };
    const body = readBody(source, layout, assignment, [], file);
    if (body.lines.length === 0) throw new Irregular();
    return resolveTimes(body.times, body.lines, assignment.time, options, [], file).form;
  } catch (error) {
    if (error instanceof HeatledgerError) throw new Irregular();
    throw error;
  }
}
