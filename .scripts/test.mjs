/**
 * `npm test`: installs and builds where needed, type-checks, lints, runs every test, and prints as the last line
 * of stdout how many passed and failed. The build, the types and the lint count as one check each. A skipped or
 * unwritten test counts as a failure: a test that does not run proves nothing. Arguments go to vitest:
 * `npm test -- test/units -t pound`.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { build, ensureInstalled, tool, top } from './steps.mjs';
import { tally } from './tally.mjs';

const passOn = process.argv.slice(2);

/** @param {string} path @param {string[]} args */
function node(path, args) {
  return spawnSync(process.execPath, [path, ...args], { cwd: top, stdio: 'inherit' }).status;
}

/** @param {string} outcome */
function heading(outcome) {
  process.stdout.write(`${outcome}\n`);
}

function lint() {
  const args = ['check', '--config-path=.biome.json', '--error-on-warnings', '--colors=off'];
  return node(tool('@biomejs/biome', 'biome'), args) === 0;
}

function types() {
  return node(tool('typescript', 'tsc'), ['-p', 'test/tsconfig.json']) === 0;
}

function tests() {
  const folder = mkdtempSync(join(tmpdir(), 'heatledger-test-'));
  const file = join(folder, 'tests.json');
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  const args = ['run', '--config', 'test/vitest.config.ts', ...reporters, ...passOn];
  const code = node(tool('vitest', 'vitest'), args);
  let report;
  try {
    report = JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    // Left undefined: the tally counts a missing report as a failure.
  }
  rmSync(folder, { recursive: true, force: true });
  const byName = passOn.some((arg) => /^(-t|--testNamePattern)(=|$)/.test(arg));
  return tally(report, code, { byName, nameOf: (path) => relative(top, path) });
}

let passed = 0;
let failed = 0;
/** @param {string} name @param {boolean} good */
function count(name, good) {
  if (good) passed += 1;
  else failed += 1;
  heading(`${name}: ${good ? 'passed' : 'FAILED'}`);
}

if (ensureInstalled()) {
  count('build', build());
  count('types', types());
  count('lint', lint());
  const outcome = tests();
  passed += outcome.passed;
  failed += outcome.failed;
  for (const complaint of outcome.complaints) heading(`FAILED: ${complaint}`);
} else count('installation', false);

process.exitCode = failed === 0 ? 0 : 1;
process.stdout.write(`${passed} passed, ${failed} failed\n`);
