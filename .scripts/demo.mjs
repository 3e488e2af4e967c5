// Installs and builds where needed, then runs the demo on the sample workbook.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { becomeNode, build, ensureInstalled, say, top } from './steps.mjs';

const demo = join(top, 'samples', 'demo.mjs');
if (!ensureInstalled() || !build()) process.exitCode = 1;
else if (!existsSync(demo)) {
  say('samples/demo.mjs is missing.');
  process.exitCode = 1;
} else becomeNode([demo, ...process.argv.slice(2)]);
