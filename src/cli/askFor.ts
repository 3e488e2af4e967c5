import { problem } from '../errors/index.js';
import { askUntil } from '../protocols/index.js';
import { type CommonArgs, atTerminal } from './Outcome.js';
import { TerminalBench } from './TerminalBench.js';

/**
 * An argument that was not given: asked for at a terminal, an error that names the option elsewhere.
 */
export async function askFor(
  args: CommonArgs,
  option: string,
  question: string,
  what: string,
  fallback?: string,
  options?: readonly string[],
): Promise<string> {
  if (!atTerminal(args)) throw problem('option-missing', { option, what }, { key: option });
  const bench = new TerminalBench();
  try {
    return await askUntil(
      bench,
      {
        step: option,
        text: question,
        kind: 'text',
        ...(fallback === undefined ? {} : { default: fallback }),
        ...(options === undefined ? {} : { options }),
      },
      (typed) => {
        if (typed === '') return { refused: 'An answer is needed here.' };
        return options && !options.includes(typed)
          ? { refused: `Choose one of: ${options.join(', ')}.` }
          : typed;
      },
    );
  } finally {
    bench.close();
  }
}
