import type { Argv } from 'yargs';
import { problem } from '../../errors/index.js';
import { describeBasis, describeResolution, dueDate } from '../../instruments/index.js';
import { formatQuantity } from '../../units/index.js';
import {
  type Instrument,
  type InstrumentKind,
  type RawRecord,
  checkId,
  idFrom,
  instrumentKinds,
  measures,
  readRawRecord,
  saveInstrument,
} from '../../workbook/index.js';
import { askFor } from '../askFor.js';
import { type CommonArgs, type Outcome, theWorkbook } from '../Outcome.js';
import type { Command } from '../Command.js';

interface Args extends CommonArgs {
  readonly action?: 'list' | 'show' | 'add';
  readonly name?: string;
  readonly file?: string;
  readonly id?: string;
  readonly kind?: InstrumentKind;
  readonly resolution?: string;
  readonly range?: string;
  readonly ofReading?: string;
  readonly ofRange?: string;
  readonly digits?: string;
  readonly absolute?: string;
  readonly offset?: string;
  readonly assumed?: boolean;
  readonly due?: string;
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
      .option('file', {
        type: 'string',
        requiresArg: true,
        describe: 'add from a record file, such as one with a certificate',
      })
      .option('kind', { choices: instrumentKinds, describe: 'what it measures with' })
      .option('id', { type: 'string', requiresArg: true, describe: 'short id (else made of the name)' })
      .option('resolution', { type: 'string', requiresArg: true, describe: 'smallest step of what is typed' })
      .option('range', { type: 'string', requiresArg: true, describe: 'upper end of its range' })
      .option('of-reading', {
        type: 'string',
        requiresArg: true,
        describe: 'limit in per cent of the reading',
      })
      .option('of-range', { type: 'string', requiresArg: true, describe: 'limit in per cent of the range' })
      .option('digits', { type: 'string', requiresArg: true, describe: 'limit in steps of the display' })
      .option('absolute', { type: 'string', requiresArg: true, describe: 'limit at every reading' })
      .option('offset', {
        type: 'string',
        requiresArg: true,
        describe: 'one error, the same at every reading',
      })
      .option('assumed', {
        type: 'boolean',
        describe: 'the limits are common practice, not from a data sheet',
      })
      .option('due', {
        type: 'string',
        requiresArg: true,
        describe: 'date of the next check, such as 2027-03-02',
      }),
  handler: async (args: Args): Promise<Outcome> => {
    const workbook = theWorkbook(args);
    const known = [...workbook.instruments.keys()];
    if (args.action === 'add') return add(args, workbook.dir, known);
    if (args.action === 'show') {
      const id = args.name ?? (await askFor(args, 'name', 'Which instrument', 'an instrument', known[0]));
      const found = workbook.instruments.get(id);
      if (!found)
        throw problem('instrument-unknown', { got: id, known: known.join(', ') || 'none' }, { key: 'name' });
      return { data: found, lines: describe(found) };
    }
    const all = [...workbook.instruments.values()];
    const lines = all.map(
      (each) =>
        `${each.id.padEnd(14)} ${each.kind.padEnd(12)} ${each.name}: ${describeBasis(each)}${dueText(each)}`,
    );
    return {
      data: { instruments: all },
      lines: lines.length > 0 ? lines : ['No instruments yet. Add one with: heatledger instrument add'],
    };
  },
};

function dueText(instrument: Instrument): string {
  const due = dueDate(instrument, new Date());
  return due === null ? '' : `, ${due.words}`;
}

function describe(instrument: Instrument): string[] {
  const lines = [
    `${instrument.name} (${instrument.id}), ${instrument.kind}`,
    `  ${describeBasis(instrument)}${dueText(instrument)}`,
    `  ${describeResolution(instrument)}`,
  ];
  const { certificate } = instrument;
  if (certificate) {
    const [rangeKind, rangeUnit] = measures[instrument.kind].range;
    const [errorKind, errorUnit] =
      instrument.kind === 'wattmeter' ? (['ratio', '%'] as const) : measures[instrument.kind].error;
    for (const point of certificate.points) {
      const at = formatQuantity(point.at, rangeKind, rangeUnit);
      const correction = formatQuantity(point.correction, errorKind, errorUnit);
      const expanded = formatQuantity(point.expandedUncertainty, errorKind, errorUnit);
      lines.push(
        `  at ${at}: correction ${correction}, expanded uncertainty ${expanded} (k = ${certificate.coverageFactor})`,
      );
    }
  }
  return lines;
}

async function add(args: Args, dir: string, known: readonly string[]): Promise<Outcome> {
  const raw = args.file === undefined ? await rawFromOptions(args) : readRawRecord(args.file);
  const id = checkId(String(raw.id ?? ''), 'instrument');
  if (known.includes(id)) throw problem('record-exists', { what: 'instrument', id }, { key: '--id' });
  const instrument = saveInstrument(dir, raw);
  return { data: instrument, lines: [`kept instrument ${instrument.id}`, ...describe(instrument)] };
}

async function rawFromOptions(args: Args): Promise<RawRecord> {
  const kind =
    args.kind ??
    ((await askFor(args, '--kind', 'What is it', 'kind', 'wattmeter', instrumentKinds)) as InstrumentKind);
  const name = args.name ?? (await askFor(args, 'name', 'What do you call it', 'its name', kind));
  const resolution =
    args.resolution ??
    (await askFor(args, '--resolution', 'Smallest step of its display, with unit', 'resolution'));
  const limits = await limitsOf(args, kind);
  return {
    schema: 1,
    id: args.id ?? idFrom(name),
    kind,
    name,
    ...(args.assumed ? { assumed: true } : {}),
    ...(args.range === undefined ? {} : { range: args.range }),
    resolution,
    limits,
    ...(args.due === undefined ? {} : { due: args.due }),
  };
}

/** The limits as options; asked for in the usual form of the kind where none is given. */
async function limitsOf(args: Args, kind: InstrumentKind): Promise<RawRecord> {
  const given: RawRecord = {
    ...(args.ofReading === undefined ? {} : { ofReading: args.ofReading }),
    ...(args.ofRange === undefined ? {} : { ofRange: args.ofRange }),
    ...(args.digits === undefined ? {} : { digits: Number(args.digits) }),
    ...(args.absolute === undefined ? {} : { absolute: args.absolute }),
    ...(args.offset === undefined ? {} : { offset: args.offset }),
  };
  if (Object.keys(given).length > 0) return given;
  if (kind === 'wattmeter') {
    return {
      ofReading: await askFor(
        args,
        '--of-reading',
        'Limit on its data sheet, per cent of the reading',
        'limit, such as "1 %"',
        '2 %',
      ),
    };
  }
  const usual = { thermometer: '0.5 K', scale: '5 g', barometer: '2 hPa' }[kind];
  return {
    absolute: await askFor(
      args,
      '--absolute',
      'Limit on its data sheet, plus or minus',
      `limit, such as "${usual}"`,
      usual,
    ),
  };
}
