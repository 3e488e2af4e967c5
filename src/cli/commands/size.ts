import type { Argv } from 'yargs';
import { problem } from '../../errors/index.js';
import { type Figure, evaluateWorkbook } from '../../evaluation/index.js';
import { type CellSupply, type Load, type Sizing, sizeFromFigure } from '../../sizing/index.js';
import { roundToUncertainty } from '../../uncertainty/index.js';
import { type QuantityKind, displayUnit, formatQuantity, readQuantity } from '../../units/index.js';
import { type CommonArgs, type Outcome, atTerminal, theWorkbook, unitsOf } from '../Outcome.js';
import type { Command } from '../Command.js';
import { askFor } from '../askFor.js';

interface Args extends CommonArgs {
  readonly figure?: string;
  readonly mass?: string;
  readonly start?: string;
  readonly end?: string;
  readonly specificHeat?: string;
  readonly cell?: string;
  readonly converter?: string;
  readonly reserve?: string;
}

export const command: Command = {
  builder: (yargs: Argv) =>
    yargs
      .option('figure', {
        type: 'string',
        requiresArg: true,
        describe: 'heater/setting the job is done with',
      })
      .option('mass', { type: 'string', requiresArg: true, describe: 'mass of the load, such as "40 kg"' })
      .option('start', { type: 'string', requiresArg: true, describe: 'its temperature at the start' })
      .option('end', { type: 'string', requiresArg: true, describe: 'its temperature at the end' })
      .option('specific-heat', {
        type: 'string',
        requiresArg: true,
        describe: 'such as "3.9 kJ/(kg K)"; water where left out',
      })
      .option('cell', {
        type: 'string',
        requiresArg: true,
        describe: 'usable energy of one cell, such as "180 Wh"',
      })
      .option('converter', {
        type: 'string',
        requiresArg: true,
        describe: 'converter efficiency, such as "90 %"',
      })
      .option('reserve', {
        type: 'string',
        requiresArg: true,
        describe: 'part added for ageing and cold, such as "15 %"',
      }),
  handler: async (args: Args): Promise<Outcome> => {
    const workbook = theWorkbook(args);
    const evaluation = evaluateWorkbook(workbook);
    const figure = await figureOf(evaluation.figures, args);
    const units = unitsOf(args, workbook);
    const quantity = async (
      value: string | undefined,
      option: string,
      question: string,
      kind: QuantityKind,
      fallback?: string,
    ) => {
      // A bare share is a share everywhere: 0.9 and 90 % are the same.
      const unit = kind === 'ratio' ? '1' : kind === 'energy' ? 'Wh' : displayUnit(kind, units);
      const typed =
        value ??
        (await askFor(
          args,
          option,
          unit === '1' ? question : `${question} (${unit})`,
          question.toLowerCase(),
          fallback,
        ));
      return readQuantity(typed, { kind, unit }, { key: option }).si;
    };
    const load: Load = {
      massKg: await quantity(args.mass, '--mass', 'Mass of the load', 'mass'),
      startK: await quantity(args.start, '--start', 'Temperature at the start', 'temperature'),
      endK: await quantity(args.end, '--end', 'Temperature at the end', 'temperature'),
      specificHeat:
        args.specificHeat === undefined
          ? null
          : await quantity(args.specificHeat, '--specific-heat', '', 'specificHeat'),
    };
    const supply = await supplyOf(args, quantity);
    const sizing = sizeFromFigure(figure, load, supply);
    return {
      data: sizingData(figure, sizing),
      lines: sizingLines(figure, load, sizing, supply, units),
      warnings: sizing.warnings,
    };
  },
};

type Ask = (
  value: string | undefined,
  option: string,
  question: string,
  kind: QuantityKind,
  fallback?: string,
) => Promise<number>;

async function supplyOf(args: Args, quantity: Ask): Promise<CellSupply | null> {
  if (args.cell === undefined && !atTerminal(args)) return null;
  return {
    usableJ: await quantity(args.cell, '--cell', 'Usable energy of one cell', 'energy'),
    converterEfficiency: await quantity(
      args.converter,
      '--converter',
      'Converter efficiency',
      'ratio',
      '90 %',
    ),
    reserve: await quantity(args.reserve, '--reserve', 'Reserve for ageing and cold', 'ratio', '20 %'),
  };
}

async function figureOf(figures: readonly Figure[], args: Args): Promise<Figure> {
  const nameOf = (figure: Figure) => `${figure.heater.id}/${figure.setting}`;
  const names = figures.map(nameOf);
  if (figures.length === 0) throw problem('no-figures', {}, {}, 'Begin with: heatledger test');
  const wanted =
    args.figure ??
    (names.length === 1
      ? names[0]
      : await askFor(args, '--figure', 'Which figure', 'heater/setting', names[0], names));
  const found = figures.filter((figure) => nameOf(figure) === wanted);
  // Two protocols may have measured one setting: the one with more runs knows more.
  const best = found.sort((a, b) => b.runs.length - a.runs.length)[0];
  if (!best)
    throw problem('figure-unknown', { got: String(wanted), known: names.join(', ') }, { key: '--figure' });
  return best;
}

const wh = (interval: readonly [number, number]) => interval.map((joules) => joules / 3600);

function sizingData(figure: Figure, sizing: Sizing): unknown {
  return {
    figure: { heater: figure.heater.id, setting: figure.setting, protocol: figure.protocol.name },
    heatWh: sizing.heatJ / 3600,
    energyWh: { value: sizing.energyJ.value / 3600, interval: wh(sizing.energyJ.interval) },
    count: sizing.cells && { recommended: sizing.cells.recommended, middle: sizing.cells.middle },
    assumption: sizing.assumption,
    warnings: sizing.warnings,
    cautions: sizing.cautions,
  };
}

function sizingLines(
  figure: Figure,
  load: Load,
  sizing: Sizing,
  supply: CellSupply | null,
  units: 'si' | 'us',
): string[] {
  const halfKWh = (sizing.energyJ.interval[1] - sizing.energyJ.interval[0]) / 2 / 3.6e6;
  const kWh = (joules: number) => `${roundToUncertainty(joules / 3.6e6, halfKWh).value} kWh`;
  const mass = formatQuantity(load.massKg, 'mass', displayUnit('mass', units), 1).replace(/\.0 /, ' ');
  const temperature = (kelvin: number) =>
    formatQuantity(kelvin, 'temperature', displayUnit('temperature', units), 1).replace(/\.0 /, ' ');
  const [low, high] = sizing.energyJ.interval;
  const what = load.specificHeat === null ? 'water' : 'load';
  const lines = [
    `${mass} of ${what} from ${temperature(load.startK)} to ${temperature(load.endK)} with ${figure.heater.name}, ${figure.setting}:`,
    `  about ${kWh(sizing.energyJ.value)} at the socket, most likely ${kWh(low).replace(/ kWh$/, '')} to ${kWh(high)}`,
  ];
  if (sizing.cells && supply) {
    const cell = formatQuantity(supply.usableJ, 'energy', 'Wh');
    const more = `converter ${formatQuantity(supply.converterEfficiency, 'ratio', '%')}, reserve ${formatQuantity(supply.reserve, 'ratio', '%')}`;
    lines.push(
      `  ${sizing.cells.recommended} cells of ${cell} (${more}); ${sizing.cells.middle} would do for the middle of it`,
    );
  } else lines.push('  State a cell to have them counted: --cell "180 Wh"');
  lines.push(`  (${sizing.assumption})`, 'Mind:', ...sizing.cautions.map((caution) => `  - ${caution}`));
  return lines;
}
