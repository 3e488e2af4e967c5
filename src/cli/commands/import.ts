import type { Argv } from 'yargs';
import { Desk } from '../importing/Desk.js';
import type { ImportArgs } from '../importing/ImportArgs.js';
import { askFile, askRun } from '../importing/askImport.js';
import { lookAt } from '../importing/lookAt.js';
import { checkedName } from '../importing/remember.js';
import { savedMappings } from '../importing/savedMappings.js';
import { takeIn } from '../importing/takeIn.js';
import { type Outcome, theWorkbook } from '../Outcome.js';
import type { Command } from '../Command.js';

/** An option with a value after it. */
const text = (describe: string) => ({ type: 'string', requiresArg: true, describe }) as const;
/** One that may be given several times. */
const texts = (describe: string) => ({ ...text(describe), array: true }) as const;

export const command: Command = {
  builder: (yargs: Argv) =>
    yargs
      .positional('file', { type: 'string', describe: 'the CSV export' })
      .option('run', text('the run it belongs to'))
      .option('look', { type: 'boolean', describe: 'show what it holds and keep nothing' })
      .option('as', { choices: ['power', 'temperature'] as const, describe: 'what it is taken in for' })
      .option('column', texts('role=header or role=number, such as power=3; may be repeated'))
      .option('unit', texts('role=unit, such as power=kW; may be repeated'))
      .option('time-form', text('how its times are written, such as day-first'))
      .option('zone', text('time zone of its clock, such as Europe/Vienna'))
      .option('interval', text('time from row to row where there is no time column, such as 10s'))
      .option('decimal', text('its decimal sign, . or ,'))
      .option('delimiter', text('what parts its columns'))
      .option('remember', text('save this mapping under a name; that of the meter is used by itself'))
      .option('replace', { type: 'boolean', describe: 'in place of another mapping of that name' })
      .option('like', text('read it as saved under this name; none for no saved mapping, list shows all'))
      .option('heating', text('its limits where the log shows others: from..to, such as 150s..45min'))
      .option('cool-down', text('the limits of the cool-down, from..to'))
      .option('beside', text('another export of the same heating: how the two clocks stand'))
      .option('csv', text('write the readings to this file as tidy CSV too'))
      .option('disagreeing', {
        type: 'boolean',
        describe: 'keep it although its energy contradicts the bench; the run will not count',
      }),
  handler: async (args: ImportArgs): Promise<Outcome> => {
    if (args.like === 'list') return savedMappings(args);
    if (args.remember !== undefined) checkedName(args.remember);
    // Who wants a CSV and names no run wants nothing kept.
    const looks = args.look === true || (args.csv !== undefined && args.run === undefined);
    return Desk.at(args, async (asker) => {
      if (looks) return lookAt({ ...args, file: args.file ?? (await askFile(asker)) }, asker);
      const file = args.file ?? (await askFile(asker));
      const workbook = theWorkbook(args);
      return takeIn({ ...args, file }, workbook, args.run ?? (await askRun(asker, workbook)), asker);
    });
  },
};
