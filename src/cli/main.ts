#!/usr/bin/env node
import { overview } from './commandTable.js';
import { version } from './version.js';

const args = process.argv.slice(2);
// Help and version are answered before anything heavy is loaded: somebody at a bench waits for them.
if (args.length === 0 || (args.length === 1 && /^(--help|-h|help)$/.test(args[0] as string))) {
  process.stdout.write(`${overview()}\n`);
} else if (args.length === 1 && /^(--version|-v)$/.test(args[0] as string)) {
  process.stdout.write(`${version()}\n`);
} else {
  const { runCommand } = await import('./runCommand.js');
  process.exitCode = await runCommand(args, version());
}
