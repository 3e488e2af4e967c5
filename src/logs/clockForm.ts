import { problem } from '../errors/index.js';
import type { TimeSource } from './TimeSource.js';
import { shownText } from './shownText.js';
import type { ReadOptions, TimeForm } from './types.js';

/** Tells hours and minutes from minutes and seconds where a clock stands without a date; an error where neither is sure. */
export function clockForm(
  seen: { readonly parts: number; readonly fraction: boolean },
  source: TimeSource,
  options: ReadOptions,
  place: { readonly file: string; readonly line: number },
): TimeForm {
  if (options.timeForm) {
    if (/^elapsed-(hms|mmss)$/.test(options.timeForm)) return options.timeForm;
    throw problem(
      'log-time-bad',
      { got: 'a time without a date', expected: `a time of the form ${options.timeForm}` },
      place,
    );
  }
  if (seen.parts === 3 || /\bh{1,2}:mm\b/i.test(source.header)) return 'elapsed-hms';
  if (/\bm{1,2}:ss\b/i.test(source.header) || seen.fraction) return 'elapsed-mmss';
  throw problem(
    'log-two-readings',
    {
      what: source.header ? `The first time of "${shownText(source.header)}"` : 'The first time',
      first: 'hours and minutes',
      second: 'minutes and seconds',
      choices: [
        { words: 'hours and minutes', options: { 'time-form': 'elapsed-hms' } },
        { words: 'minutes and seconds', options: { 'time-form': 'elapsed-mmss' } },
      ],
    },
    place,
    'Say which with --time-form elapsed-hms or --time-form elapsed-mmss.',
  );
}
