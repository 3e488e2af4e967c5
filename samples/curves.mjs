/**
 * Makes samples/curves/ again: `node samples/curves.mjs`. Needs nothing but Node; no other sample is touched.
 */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { curveFiles } from './lib/curveFiles.mjs';
import { simulateCurves } from './lib/curves.mjs';

const here = join(dirname(fileURLToPath(import.meta.url)), 'curves');
rmSync(here, { recursive: true, force: true });
const curves = simulateCurves();
let bytes = 0;
const files = curveFiles(curves);
for (const [path, text] of files) {
  const target = join(here, path);
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(target, text);
  bytes += Buffer.byteLength(text);
}
console.log(`${files.size} files, ${(bytes / 1e6).toFixed(2)} MB, seed ${curves.seed}`);
