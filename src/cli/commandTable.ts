/** One line of the overview and how to reach the command. Light: nothing heavy is loaded to print the help. */
export interface CommandEntry {
  readonly name: string;
  readonly usage: string;
  readonly describe: string;
  readonly where: 'at the bench' | 'at the desk' | 'on the shelf';
}

export const commandTable: readonly CommandEntry[] = [
  {
    name: 'test',
    usage: 'test [protocol]',
    describe: 'run a test step by step, or go on with one',
    where: 'at the bench',
  },
  {
    name: 'import',
    usage: 'import [file]',
    describe: 'take in the CSV export of a meter, or just look at it',
    where: 'at the bench',
  },
  {
    name: 'correct',
    usage: 'correct [run]',
    describe: 'take a run out of its figure, with a reason, or let it count again',
    where: 'at the bench',
  },
  {
    name: 'result',
    usage: 'result',
    describe: 'what reached the load, how sure, and why',
    where: 'at the desk',
  },
  {
    name: 'fit',
    usage: 'fit [run]',
    describe: 'warm-up and cool-down of a run: loss, share, time constant',
    where: 'at the desk',
  },
  {
    name: 'compare',
    usage: 'compare [figures..]',
    describe: 'do settings, heaters or two labs differ',
    where: 'at the desk',
  },
  {
    name: 'plan',
    usage: 'plan',
    describe: 'before the test: how sure it will be, what helps, in which order',
    where: 'at the desk',
  },
  { name: 'size', usage: 'size', describe: 'energy and cells for a job', where: 'at the desk' },
  { name: 'report', usage: 'report', describe: 'write the report as one HTML file', where: 'at the desk' },
  {
    name: 'instrument',
    usage: 'instrument [action] [name]',
    describe: 'list, show or add instruments',
    where: 'on the shelf',
  },
  {
    name: 'heater',
    usage: 'heater [action] [name]',
    describe: 'list, show or add heaters',
    where: 'on the shelf',
  },
  {
    name: 'protocol',
    usage: 'protocol [action] [name]',
    describe: 'list, show or check test procedures',
    where: 'on the shelf',
  },
];

/** Options that every command takes. */
export const commonOptions: readonly (readonly [string, string])[] = [
  ['--workbook DIR', 'the folder of records (else this folder if it is one, else ~/heatledger)'],
  ['--json', 'the result, or the error, as JSON'],
  ['--units si|us', 'units of what is asked and shown'],
  ['--detail', 'the words of metrology too'],
];

/** The overview that `heatledger --help` prints. */
export function overview(): string {
  const lines = [
    'heatledger: how much of the metered energy reaches the load, and how sure that is',
    '',
    'heatledger <command>',
    '',
  ];
  const width = Math.max(...commandTable.map((entry) => entry.usage.length)) + 2;
  for (const where of ['at the bench', 'at the desk', 'on the shelf'] as const) {
    lines.push(`${where}:`);
    for (const entry of commandTable.filter((each) => each.where === where)) {
      lines.push(`  ${entry.usage.padEnd(width)}${entry.describe}`);
    }
  }
  lines.push('', 'with every command:');
  for (const [option, describe] of commonOptions) lines.push(`  ${option.padEnd(width)}${describe}`);
  lines.push(
    `  ${'--help'.padEnd(width)}this page, or the options of a command`,
    `  ${'--version'.padEnd(width)}the version`,
  );
  lines.push('', 'First time here? heatledger test');
  return lines.join('\n');
}
