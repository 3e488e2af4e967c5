import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/** Threads are started from compiled files, so these tests compile what they need into a folder of their own. */
const src = fileURLToPath(new URL('../../src/', import.meta.url));
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'heatledger-workers-'));
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
  cpSync(
    fileURLToPath(new URL('../../node_modules/simple-statistics', import.meta.url)),
    join(folder, 'node_modules/simple-statistics'),
    { recursive: true },
  );
  for (const name of ['errors', 'statistics', 'uncertainty']) compileFolder(name);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

function compileFolder(name: string): void {
  mkdirSync(join(folder, name), { recursive: true });
  for (const entry of readdirSync(join(src, name), { withFileTypes: true })) {
    const path = `${name}/${entry.name}`;
    if (entry.isDirectory()) compileFolder(path);
    else {
      const compilerOptions = { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ES2022 };
      const { outputText } = ts.transpileModule(readFileSync(join(src, path), 'utf8'), { compilerOptions });
      writeFileSync(join(folder, path.replace(/\.ts$/, '.js')), outputText);
    }
  }
}

/** Runs a script that has the library as `u` and tells something as JSON. */
function told(script: string): unknown {
  const file = join(folder, 'script.mjs');
  writeFileSync(file, `import * as u from './uncertainty/index.js';\n${script}`);
  const { stdout, stderr, status } = spawnSync(process.execPath, [file], { encoding: 'utf8' });
  expect(stderr).toBe('');
  expect(status).toBe(0);
  return JSON.parse(stdout);
}

const MODEL = `
  const error = (id, spec) => u.errorOf(u.source({ id, name: id, ...spec }));
  const x = u.add(u.constant(2), error('x', { halfWidth: 0.1 }));
  const t = u.add(u.constant(3), error('t', { standardUncertainty: 0.2, degreesOfFreedom: 4 }));
  const [a, b] = u.correlatedErrors({ id: 'g', names: ['a', 'b'], covariance: [[1, 0.5], [0.5, 1]] });
  const model = u.add(u.multiply(x, u.exponential(t)), a, u.multiply(b, b), error('c', { halfWidth: 1, distribution: 'arcsine' }));
`;

describe('any number of threads', () => {
  it('gives the same bits, for fixed trials and for the search', () => {
    const texts = told(`${MODEL}
      const run = (options) => [1, 2, 3, 7].map((workers) => JSON.stringify(u.simulate([model, x], { seed: 11, ...options, workers })));
      const slow = u.lift('a function', ([v]) => v * v, [4], x);
      const alone = [1, 3].map((workers) => JSON.stringify(u.simulate(slow, { seed: 11, trials: 20000, workers })));
      console.log(JSON.stringify([run({ trials: 150000 }), run({ digits: 2, mostTrials: 400000 }), run({ trials: 1000 }), alone]));
    `) as string[][];
    for (const same of texts) expect(new Set(same).size).toBe(1);
    expect(new Set(texts.map(([first]) => first)).size).toBe(texts.length);
  });

  it('really shares the work', () => {
    // A helper alone takes blocks of a job that the calling thread leaves to it.
    const found = told(`${MODEL}
      import { askHelpers } from './uncertainty/monteCarlo/helpers.js';
      import { compile } from './uncertainty/monteCarlo/compile.js';
      import { Machine } from './uncertainty/monteCarlo/Machine.js';
      const shared = (bytes) => new SharedArrayBuffer(bytes);
      const states = new Uint32Array(shared(16 * 5)).map((_, i) => 7 * i + 1);
      const program = compile([model]);
      const job = { program, states: new Uint32Array(shared(80)), values: [new Float64Array(shared(8 * 1024 * 5))], next: new Int32Array(shared(4)), finished: new Int8Array(shared(5)) };
      job.states.set(states);
      askHelpers(job, 1);
      // Asleep, so that only the helper can have done it; a minute is for a machine far slower than ours.
      const end = Date.now() + 60000;
      while (!job.finished.every((each) => each === 1) && Date.now() < end) Atomics.wait(new Int32Array(shared(4)), 0, 0, 5);
      const machine = new Machine(program);
      const same = [0, 1, 2, 3, 4].map((block) => machine.run(states, 4 * block)[0].every((value, k) => value === job.values[0][1024 * block + k]));
      console.log(JSON.stringify({ finished: [...job.finished], same }));
    `);
    expect(found).toEqual({ finished: [1, 1, 1, 1, 1], same: [true, true, true, true, true] });
  });

  it('survives a thread that takes a block and never ends it', () => {
    const found = told(`${MODEL}
      import { Worker } from 'node:worker_threads';
      // In place of every thread: a block is taken, and that was all.
      Worker.prototype.postMessage = (job) => Atomics.add(job.next, 0, 1);
      const options = { seed: 11, trials: 50000 };
      const same = JSON.stringify(u.simulate(model, options)) === JSON.stringify(u.simulate(model, { ...options, workers: 3 }));
      console.log(JSON.stringify(same));
    `);
    expect(found).toBe(true);
  });
});
