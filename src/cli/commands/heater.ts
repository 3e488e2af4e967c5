import type { Argv } from 'yargs';
import { problem } from '../../errors/index.js';
import { checkHeater } from '../../protocols/index.js';
import { formatQuantity } from '../../units/index.js';
import { type Heater, type RawRecord, checkId, idFrom, saveHeater } from '../../workbook/index.js';
import { askFor } from '../askFor.js';
import { type CommonArgs, type Outcome, theWorkbook } from '../Outcome.js';
import type { Command } from '../Command.js';

interface Args extends CommonArgs {
  readonly action?: 'list' | 'show' | 'add';
  readonly name?: string;
  readonly id?: string;
  readonly settings?: string;
  readonly material?: string;
  readonly power?: string;
  readonly control?: string;
  readonly body?: string;
  readonly bodyHalfWidth?: string;
}

export const command: Command = {
  builder: (yargs: Argv) =>
    yargs
      .positional('action', {
        choices: ['list', 'show', 'add'] as const,
        default: 'list',
        describe: 'what to do',
      })
      .positional('name', { type: 'string', describe: 'id to show, or name to add' })
      .option('id', { type: 'string', requiresArg: true, describe: 'short id (else made of the name)' })
      .option('settings', { type: 'string', requiresArg: true, describe: 'its settings, parted by commas' })
      .option('material', { type: 'string', requiresArg: true, describe: 'what the vessel is made of' })
      .option('power', { type: 'string', requiresArg: true, describe: 'rated power, such as "900 W"' })
      .option('control', {
        choices: ['steady', 'cycling', 'chopped', 'unknown'] as const,
        describe: 'how it makes its power',
      })
      .option('body', {
        type: 'string',
        requiresArg: true,
        describe: 'heat capacity of its body, for warm starts',
      })
      .option('body-half-width', { type: 'string', requiresArg: true, describe: 'half-width of that' }),
  handler: async (args: Args): Promise<Outcome> => {
    const workbook = theWorkbook(args);
    if (args.action === 'add') return add(args, workbook.dir, [...workbook.heaters.keys()]);
    if (args.action === 'show') {
      const id =
        args.name ??
        (await askFor(args, 'name', 'Which heater', 'a heater', [...workbook.heaters.keys()][0]));
      checkHeater(workbook, id);
      const heater = workbook.heaters.get(id) as Heater;
      return { data: heater, lines: describe(heater) };
    }
    const heaters = [...workbook.heaters.values()];
    const lines = heaters.map(
      (heater) =>
        `${heater.id.padEnd(18)} ${heater.name}: ${heater.settings.map((each) => each.id).join(', ')}`,
    );
    return {
      data: { heaters },
      lines: lines.length > 0 ? lines : ['No heaters yet. Add one with: heatledger heater add'],
    };
  },
};

function describe(heater: Heater): string[] {
  const lines = [`${heater.name} (${heater.id})`];
  if (heater.ratedPower !== undefined)
    lines.push(`  rated power ${formatQuantity(heater.ratedPower, 'power', 'W')}`);
  if (heater.vessel) lines.push(`  vessel of ${heater.vessel.material}`);
  if (heater.bodyHeatCapacity) {
    const { value, halfWidth } = heater.bodyHeatCapacity;
    lines.push(
      `  heat capacity of the body ${formatQuantity(value, 'heatCapacity', 'J/K')} ± ${formatQuantity(halfWidth, 'heatCapacity', 'J/K')}`,
    );
  }
  for (const setting of heater.settings)
    lines.push(
      `  setting ${setting.id}: ${setting.control === 'unknown' ? 'control not known' : setting.control}`,
    );
  return lines;
}

async function add(args: Args, dir: string, known: readonly string[]): Promise<Outcome> {
  const name = args.name ?? (await askFor(args, 'name', 'What heater is it', 'its name'));
  const id = checkId(args.id ?? idFrom(name), 'heater');
  if (known.includes(id)) throw problem('record-exists', { what: 'heater', id }, { key: '--id' });
  const settings = (
    args.settings ?? (await askFor(args, '--settings', 'Its settings, parted by commas', 'settings', 'full'))
  )
    .split(',')
    .map((each) => each.trim())
    .filter((each) => each !== '');
  const material =
    args.material ?? (await askFor(args, '--material', 'What is the vessel made of', 'material', 'steel'));
  const raw: RawRecord = {
    schema: 1,
    id,
    name,
    ...(args.power === undefined ? {} : { ratedPower: args.power }),
    vessel: { material },
    ...(args.body === undefined
      ? {}
      : { bodyHeatCapacity: { value: args.body, halfWidth: args.bodyHalfWidth ?? args.body } }),
    settings: settings.map((each) => ({ id: idFrom(each), name: each, control: args.control ?? 'unknown' })),
  };
  const heater = saveHeater(dir, raw);
  return {
    data: heater,
    lines: [
      `kept heater ${heater.id}`,
      ...describe(heater),
      '',
      `Next: heatledger test --heater ${heater.id}`,
    ],
  };
}
