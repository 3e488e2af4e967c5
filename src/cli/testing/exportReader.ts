import { HeatledgerError } from '../../errors/index.js';
import { type Bench, type Protocol, type WalkOptions, askUntil, exportPath } from '../../protocols/index.js';
import type { Workbook } from '../../workbook/index.js';
import type { CommonArgs } from '../Outcome.js';
import type { Asker } from '../importing/Desk.js';
import { readForRun } from '../importing/readForRun.js';
import { readingWords } from '../importing/readingWords.js';
import { settled } from '../importing/settled.js';

/**
 * How a test reads its exports: as `import` does, with the mapping that is saved for the meter. What can be read in two
 * ways is asked of the person at the bench; a file of answers has nobody to ask.
 */
export function exportReader(
  args: CommonArgs,
  workbook: Workbook,
  protocol: Protocol,
  at: { readonly base: string; readonly bench: Bench | null },
): NonNullable<WalkOptions['readLog']> {
  return async (file, role, run) => {
    const path = exportPath(file, at.base);
    const wanted = { ...args, file, as: role === 'powerLog' ? 'power' : 'temperature' } as const;
    const read = async (like?: 'none') => {
      const { value, chosen } = await settled({ ...wanted, like }, askerOf(at.bench), (now) =>
        readForRun(now, path, workbook, run, protocol),
      );
      return { ready: value.ready, words: readingWords(value.plan, chosen) };
    };
    try {
      return await read();
    } catch (error) {
      if (!(error instanceof HeatledgerError) || error.code !== 'mapping-unfit') throw error;
      // At the bench there are no options to go on with: it is read as it stands, if it can be, and said so.
      const { ready, words } = await read('none');
      return { ready, words: [error.message, 'It was read without that mapping.', ...words] };
    }
  };
}

function askerOf(bench: Bench | null): Asker | null {
  return (
    bench && { say: (text) => bench.say(text), ask: (question, take) => askUntil(bench, question, take) }
  );
}
