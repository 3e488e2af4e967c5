// 1,000,000 trials of an efficiency with ten sources, both 95 % intervals included: heatledger beside numpy.
// numpy is Debian's: apt-get install python3-numpy. Without it that column stays empty and nothing is compared.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { alternate, conclude, median, verdict } from './bench.mjs';

const dist = new URL('../../dist/', import.meta.url);
const python = process.env.PYTHON ?? '/usr/bin/python3';
const script = fileURLToPath(new URL('montecarlo.py', import.meta.url));
const TRIALS = 1_000_000;
const ROUNDS = 9;

/** The test of a vat warmer: half-widths where nothing else is said, SI, temperatures in kelvin. */
const model = {
  trials: TRIALS,
  coverage: 0.95,
  full: 12.412,
  empty: 1.206,
  scaleStep: 0.001,
  scaleGain: 2e-4, // standard uncertainty, relative
  air: 1.19,
  airU: 0.012, // standard uncertainty
  water: 998.2,
  start: 285.35,
  end: 336.25,
  offset: 0.1,
  startStep: 0.05,
  stirring: 0.2,
  formulation: 5e-4,
  energy: 2.946e6,
  meterGain: 0.01,
  counterStep: 1800,
  low: 273.16,
  high: 376,
  pressurePa: 101_325,
};

/** The model as a graph, and the polynomial for the enthalpy that both sides use. */
async function ours() {
  const u = await import(new URL('uncertainty/index.js', dist).href);
  const { enthalpy } = await import(new URL('water/index.js', dist).href);
  const { chebyshevSeries } = await import(new URL('uncertainty/monteCarlo/chebyshevSeries.js', dist).href);
  const { add, constant, divide, multiply, subtract } = u;
  const error = (/** @type {string} */ id, /** @type {number} */ halfWidth) =>
    u.errorOf(u.source({ id, name: id, halfWidth }));
  const normal = (/** @type {string} */ id, /** @type {number} */ standardUncertainty) =>
    u.errorOf(u.source({ id, name: id, standardUncertainty }));
  const one = constant(1);
  const full = add(constant(model.full), error('scale step, full', model.scaleStep));
  const empty = add(constant(model.empty), error('scale step, empty', model.scaleStep));
  const shown = multiply(subtract(full, empty), add(one, normal('scale gain', model.scaleGain)));
  const air = add(constant(model.air), normal('air density', model.airU));
  const over = (/** @type {number} */ density) => subtract(one, divide(air, constant(density)));
  const mass = divide(multiply(shown, over(8000)), over(model.water));
  const offset = error('thermometer offset', model.offset);
  const h = (/** @type {any} */ temperature) =>
    u.approximate(
      u.lift('enthalpy', ([t]) => enthalpy(t, model.pressurePa), [4180], temperature),
      { low: model.low, high: model.high, degree: 14, tolerance: 1e-5 },
    );
  const start = h(add(constant(model.start), offset, error('start reading', model.startStep)));
  const end = h(add(constant(model.end), offset, error('stirring', model.stirring)));
  const rise = multiply(subtract(end, start), add(one, error('formulation', model.formulation)));
  const gain = add(one, error('meter gain', model.meterGain));
  const energy = add(multiply(constant(model.energy), gain), error('counter steps', model.counterStep));
  const efficiency = divide(multiply(mass, rise), energy);
  return { u, efficiency, coefficients: [...chebyshevSeries(start).coefficients] };
}

/** A numpy process that is asked for one run after the other, or null where there is none. */
async function numpy(/** @type {readonly number[]} */ coefficients) {
  // Settings that slow numpy's library on some processors are none of numpy's own.
  const { OPENBLAS_CORETYPE: _, OPENBLAS_L2_SIZE: __, ...env } = process.env;
  if (!existsSync(python)) return null;
  const child = spawn(python, [script], { env, stdio: ['pipe', 'pipe', 'ignore'] });
  child.stdin.on('error', () => {});
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  child.stdin.write(`${JSON.stringify({ ...model, coefficients })}\n`);
  const first = await lines.next();
  if (first.done) return null;
  return {
    version: JSON.parse(first.value).numpy,
    ask: async (/** @type {object} */ what) => {
      child.stdin.write(`${JSON.stringify(what)}\n`);
      const line = await lines.next();
      if (line.done) throw new Error('numpy ended before it was done.');
      return JSON.parse(line.value);
    },
    end: () => child.stdin.end(),
  };
}

/** Whether 1, 2 and 3 threads give the same bits; the figures of the first. */
function sameBits(/** @type {(workers: number) => any} */ run) {
  const texts = [1, 2, 3, 2, 3].map((workers) => JSON.stringify(run(workers)));
  return texts.every((text) => text === texts[0]);
}

const { u, efficiency, coefficients } = await ours();
const threads = Math.min(2, availableParallelism());
const run = (/** @type {number} */ workers) =>
  u.simulate(efficiency, { seed: 20, trials: TRIALS, coverage: model.coverage, workers });
const same = sameBits(run);
const other = await numpy(coefficients);
/** @type {any} */
let last = null;
const jobs = {
  [`heatledger, ${threads} threads`]: () => run(threads),
  'heatledger, 1 thread': () => run(1),
  ...(other
    ? {
        'numpy, whole arrays': async () => {
          last = await other.ask({ seed: 20, blocks: 0 });
        },
        'numpy, blocks of 16384': () => other.ask({ seed: 20, blocks: 16_384 }),
      }
    : {}),
};
const times = await alternate(jobs, ROUNDS);
other?.end();

const result = run(1);
const of = (/** @type {string} */ name) => median(times[name] ?? [Number.NaN]);
const oursMs = of(`heatledger, ${threads} threads`);
const numpyMs = of('numpy, whole arrays');
const round = (/** @type {number} */ value) => Number(value.toFixed(2));
const figures = (/** @type {readonly number[]} */ list) => list.map((value) => value.toFixed(6)).join('  ');
const print = (/** @type {string} */ line) => process.stdout.write(`${line}\n`);
print(`${TRIALS} trials of 10 sources; ${8 * (TRIALS / 1e6)} MB of results; both 95 % intervals.`);
print('              mean      u         symmetric           shortest');
print(
  `heatledger    ${figures([result.mean, result.standardUncertainty, ...result.symmetric, ...result.shortest])}`,
);
print(`numpy         ${last ? figures(last.figures) : '(none: apt-get install python3-numpy)'}`);
print(`1, 2 and 3 threads give the same bits: ${same ? 'yes' : 'NO'}`);
// The bar is numpy as it is commonly written, over whole arrays; in blocks that suit its cache it is quicker, and shown beside.
const outcome = other ? verdict(oursMs, numpyMs) : { ratio: /** @type {any} */ (null), holds: true };
const known = (/** @type {number} */ value) => (other ? round(value) : null);
conclude(
  times,
  { ...outcome, holds: outcome.holds && same },
  {
    bench: 'montecarlo',
    trials: TRIALS,
    sources: 10,
    threads,
    sameBits: same,
    heatledgerMs: round(oursMs),
    numpyMs: known(numpyMs),
    ratioToNumpyInBlocks: known(oursMs / of('numpy, blocks of 16384')),
    ratioOfOneThread: known(of('heatledger, 1 thread') / numpyMs),
    numpy: other?.version ?? null,
    peakMb: round(process.resourceUsage().maxRSS / 1024),
    numpyPeakMb: last ? round(last.peakMb) : null,
  },
);
