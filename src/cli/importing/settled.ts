import { type Choice, HeatledgerError } from '../../errors/index.js';
import type { Asker } from './Desk.js';
import type { ImportArgs } from './ImportArgs.js';

/** What a reading came to, with the options that settled it. */
export interface Settled<T> {
  readonly value: T;
  readonly args: ImportArgs;
  /** The options that were chosen on the way, as a command line has them. */
  readonly chosen: readonly string[];
}

/**
 * Reads an export; where it can be read in two ways a person at the terminal is asked which, and it is read again with
 * the option that settles it. With nobody to ask, the error stands: nothing is ever chosen silently.
 */
export async function settled<T>(
  args: ImportArgs,
  asker: Asker | null,
  read: (args: ImportArgs) => Promise<T>,
): Promise<Settled<T>> {
  const chosen: string[] = [];
  let before = '';
  for (let now = args; ; ) {
    try {
      return { value: await read(now), args: now, chosen };
    } catch (error) {
      const choices = error instanceof HeatledgerError ? (error.choices ?? []) : [];
      // The same question twice: the answer has settled nothing.
      if (asker === null || choices.length < 2 || (error as Error).message === before) throw error;
      before = (error as Error).message;
      const choice = await askWhich(asker, error as HeatledgerError, choices);
      now = withChoice(now, choice);
      for (const [option, value] of Object.entries(choice.options))
        chosen.push(value === '' ? `without --${option}` : `--${option} ${quoted(value)}`);
    }
  }
}

function askWhich(asker: Asker, error: HeatledgerError, choices: readonly Choice[]): Promise<Choice> {
  const [place] = error.toText().split(error.message);
  asker.say(`${place}${error.message}`);
  for (const [i, { words }] of choices.entries()) asker.say(`  ${i + 1}) ${words}`);
  const options = choices.map((_, i) => String(i + 1));
  const help =
    'The same numbers mean something else in each reading. The display of the meter shows which is right.';
  return asker.ask({ step: 'which', text: 'Which one', kind: 'text', options, help }, (typed) => {
    const choice = choices[Number(typed) - 1];
    return /^\d+$/.test(typed) && choice ? choice : { refused: `Type one of: ${options.join(', ')}.` };
  });
}

/** The command line with one more option on it. */
function withChoice(args: ImportArgs, { options }: Choice): ImportArgs {
  const { column, unit, interval, 'time-form': timeForm, ...rest } = options;
  const added = (list: readonly string[] | undefined, pair: string) => {
    const role = pair.slice(0, pair.indexOf('=') + 1);
    return [...(list ?? []).filter((each) => !each.startsWith(role)), pair];
  };
  return {
    ...args,
    ...rest,
    // Empty where the option is to be left out.
    ...(interval === undefined ? {} : { interval: interval === '' ? undefined : interval }),
    ...(timeForm === undefined ? {} : { timeForm }),
    ...(column === undefined ? {} : { column: added(args.column, column) }),
    ...(unit === undefined ? {} : { unit: added(args.unit, unit) }),
  };
}

/** As a shell takes it. */
function quoted(value: string): string {
  return /^[\w.,:=+/@%-]+$/.test(value) ? value : `'${value.replaceAll("'", `'\\''`)}'`;
}
