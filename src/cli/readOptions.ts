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
  // Checked here too: an export whose times need no zone would never look at it, and would keep it.
  if (args.zone !== undefined && !isZone(args.zone))
    throw problem('log-zone-unknown', { got: args.zone }, { key: '--zone' });
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

function isZone(zone: string): boolean {
  if (/^([+-]\d\d(:?\d\d)?|z)$/i.test(zone)) return true;
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}
