// Installs and builds where needed, then runs the program with the arguments given.
import { existsSync } from 'node:fs';
import { becomeNode, build, ensureInstalled, program, say } from './steps.mjs';

if (!ensureInstalled() || !build()) process.exitCode = 1;
else if (!existsSync(program)) {
  say('The build left no dist/cli/main.js: is src/cli/main.ts missing?');
  process.exitCode = 1;
} else becomeNode([program, ...process.argv.slice(2)]);
