import { type Bench, askUntil } from '../../protocols/index.js';

/** One of several words; the beginning of one is enough where it is the only one that begins so. */
export function choose(
  bench: Bench,
  text: string,
  options: readonly string[],
  fallback?: string,
): Promise<string> {
  const question = {
    step: text,
    text,
    options,
    kind: 'text' as const,
    ...(fallback === undefined ? {} : { default: fallback }),
  };
  return askUntil(bench, question, (typed) => {
    const wanted = typed.toLowerCase();
    const starting = options.filter((option) => option.toLowerCase().startsWith(wanted));
    const found =
      options.find((option) => option.toLowerCase() === wanted) ??
      (starting.length === 1 ? starting[0] : undefined);
    return wanted !== '' && found !== undefined
      ? found
      : { refused: `Choose one of: ${options.join(', ')}.` };
  });
}
