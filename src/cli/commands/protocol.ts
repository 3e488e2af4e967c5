import { basename } from 'node:path';
import type { Argv } from 'yargs';
import { findProtocol, listProtocols, parseProtocol } from '../../protocols/index.js';
import type { Protocol } from '../../protocols/index.js';
import { isWorkbook, readText } from '../../workbook/index.js';
import { askFor } from '../askFor.js';
import { type CommonArgs, type Outcome, workbookDir } from '../Outcome.js';
import type { Command } from '../Command.js';

interface Args extends CommonArgs {
  readonly action?: 'list' | 'show' | 'validate';
  readonly name?: string;
}

export const command: Command = {
  builder: (yargs: Argv) =>
    yargs
      .positional('action', {
        choices: ['list', 'show', 'validate'] as const,
        default: 'list',
        describe: 'what to do',
      })
      .positional('name', { type: 'string', describe: 'a protocol, or a file to validate' }),
  handler: async (args: Args): Promise<Outcome> => {
    const dir = isWorkbook(workbookDir(args)) ? workbookDir(args) : null;
    if (args.action === 'validate')
      return validate(args.name ?? (await askFor(args, 'name', 'Which file', 'a protocol file')));
    if (args.action === 'show')
      return show(
        args.name ?? (await askFor(args, 'name', 'Which protocol', 'a protocol', 'water-heating')),
        dir,
      );
    return list(dir);
  },
};

function list(dir: string | null): Outcome {
  const found = listProtocols(dir).map((each) => ({
    ...each,
    title: findProtocol(each.name, dir).protocol.title,
  }));
  const lines = found.map(
    (each) => `${each.name.padEnd(18)} ${each.title}${each.from === 'workbook' ? ' (of this workbook)' : ''}`,
  );
  return { data: { protocols: found }, lines: [...lines, '', 'Next: heatledger protocol show NAME'] };
}

function show(name: string, dir: string | null): Outcome {
  const { protocol, file } = findProtocol(name, dir);
  return { data: { file, protocol }, lines: [...describe(protocol), '', file] };
}

function validate(file: string): Outcome {
  const protocol = parseProtocol(readText(file), file);
  const expected = basename(file).replace(/\.ya?ml$/, '');
  const warnings =
    protocol.name === expected
      ? []
      : [`To be found by its name the file must be called ${protocol.name}.yaml.`];
  return {
    data: { file, name: protocol.name, version: protocol.version, steps: protocol.steps.length, valid: true },
    lines: [
      `${file}: "${protocol.title}", version ${protocol.version}, ${protocol.steps.length} steps, in order`,
    ],
    warnings,
  };
}

function describe(protocol: Protocol): string[] {
  const lines = [
    `${protocol.title} (${protocol.name}, version ${protocol.version})`,
    protocol.purpose.trim(),
    '',
    'Cautions:',
  ];
  lines.push(...protocol.cautions.map((caution) => `  - ${caution}`), '', 'Steps:');
  protocol.steps.forEach((step, i) => {
    const more: string[] = [];
    if (step.kind === 'reading')
      more.push(`${step.unit}, ${step.plausible[0]} to ${step.plausible[1]}, ${step.instrument}`);
    if (step.kind === 'choice') more.push(step.options.join(' or '));
    if (step.optional) more.push('may be left out');
    lines.push(
      `  ${String(i + 1).padStart(2)}. ${step.ask}${more.length > 0 ? ` (${more.join('; ')})` : ''}`,
    );
  });
  if (protocol.allowances.length > 0) {
    lines.push('', 'Doubts that no instrument owns:');
    lines.push(...protocol.allowances.map((each) => `  - ${each.name}: ± ${each.halfWidth} (${each.basis})`));
  }
  return lines;
}
