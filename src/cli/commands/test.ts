import type { Argv } from 'yargs';
import { problem } from '../../errors/index.js';
import { atTerminal, type Outcome } from '../Outcome.js';
import type { Command } from '../Command.js';
import { answeredTest } from '../testing/answeredTest.js';
import type { TestArgs } from '../testing/TestArgs.js';
import { guidedTest } from '../testing/guidedTest.js';

export const command: Command = {
  builder: (yargs: Argv) =>
    yargs
      .positional('protocol', { type: 'string', describe: 'such as water-heating' })
      .option('heater', { type: 'string', requiresArg: true, describe: 'the heater under test' })
      .option('setting', { type: 'string', requiresArg: true, describe: 'its setting' })
      .option('hand', { type: 'string', requiresArg: true, describe: 'who takes the readings' })
      .option('resume', {
        type: 'string',
        describe: 'go on with a run, the last unfinished one if none is named',
      })
      .option('again', { type: 'boolean', describe: 'the same test as last time once more' })
      .option('answers', { type: 'string', requiresArg: true, describe: 'take the answers from a file' }),
  handler: async (args: TestArgs): Promise<Outcome> => {
    if (args.answers !== undefined) return answeredTest(args, args.answers);
    if (!atTerminal(args))
      throw problem('no-terminal', {}, {}, 'The form of such a file stands in the README.');
    return guidedTest(args);
  },
};
