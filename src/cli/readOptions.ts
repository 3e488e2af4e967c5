import { problem } from '../errors/index.js';
import type { ReadOptions, TimeForm } from '../logs/index.js';

export interface ReadArgs {
  readonly zone?: string | undefined;
  readonly timeForm?: string | undefined;
  readonly delimiter?: string | undefined;
  readonly decimal?: '.' | ',' | undefined;
  readonly column?: readonly string[] | undefined;
  readonly unit?: readonly string[] | undefined;
}

/** Options of the command line about an export in the form the reader takes. */
export function readOptionsOf(args: ReadArgs): ReadOptions {
  const pairs = (list: readonly string[] | undefined, option: string): Record<string, string> =>
    Object.fromEntries(
      (list ?? []).map((text) => {
        const at = text.indexOf('=');
        if (at < 1 || at === text.length - 1) {
          throw problem(
            'option-bad',
            { message: `${option} is written as role=value, such as power=3; this was "${text}".` },
            { key: option },
          );
        }
        return [text.slice(0, at).trim(), text.slice(at + 1).trim()];
      }),
    );
  const delimiter = args.delimiter === 'tab' || args.delimiter === '\\t' ? '\t' : args.delimiter;
  return {
    ...(args.zone === undefined ? {} : { zone: args.zone }),
    ...(args.timeForm === undefined ? {} : { timeForm: args.timeForm as TimeForm }),
    ...(delimiter === undefined ? {} : { delimiter }),
    ...(args.decimal === undefined ? {} : { decimal: args.decimal }),
    ...(args.column === undefined ? {} : { columns: pairs(args.column, '--column') }),
    ...(args.unit === undefined ? {} : { units: pairs(args.unit, '--unit') }),
  };
}
