// A one-node fit to 8 h of temperatures and power at 1 s: heatledger beside SciPy's least_squares with the same model.
// SciPy is Debian's: apt-get install python3-scipy. Without it that column stays empty and nothing is compared.
// Ours is the whole fit: checks, start values, block means, both least squares, residual tests, bands and sensitivities.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { alternate, conclude, median, verdict } from './bench.mjs';
import { Draw } from './coverage/random.mjs';

const dist = new URL('../../dist/', import.meta.url);
const python = process.env.PYTHON ?? '/usr/bin/python3';
const script = fileURLToPath(new URL('fitScipy.py', import.meta.url));
const ROUNDS = 101;
/** Ours may take half of SciPy's time. */
const ALLOWED = 0.5;
const truth = { heatingRate: 6.4e-5, lossRate: 1.1e-4, startK: 285.15, ambientK: 293.15 };

/** 8 h at 1 s: a thermostat's heating, measured power with its ripple, noise that remembers itself, steps of 0.01 K. */
function log() {
  const draw = new Draw(8, 3600);
  const timesS = [];
  const temperaturesK = [];
  const powerW = [];
  let excess = truth.startK - truth.ambientK;
  let on = false;
  let noise = 0;
  let watts = 0;
  for (let t = 0; t <= 8 * 3600; t += 1) {
    if (t > 0) {
      const next = watts;
      // Small steps within the second, the power a straight line between its readings as the models take it.
      const seen = on ? 900 + draw.normal(4) : 0.6;
      for (let part = 0; part < 10; part += 1) {
        const now = next + ((seen - next) * (part + 0.5)) / 10;
        excess += 0.1 * (truth.heatingRate * now - truth.lossRate * excess);
      }
      watts = seen;
    }
    if (t === 600) on = true;
    else if (on && excess > 55) on = false;
    else if (!on && t > 7200 && excess < 53) on = true;
    noise = 0.98 * noise + draw.normal(0.006);
    timesS.push(t);
    temperaturesK.push(Math.round((truth.ambientK + excess + noise) * 100) / 100);
    powerW.push(watts);
  }
  return { timesS, temperaturesK, powerW };
}

/** A SciPy process that is asked for one fit after the other, or null where there is none. */
async function scipy(/** @type {object} */ model) {
  const { OPENBLAS_CORETYPE: _, OPENBLAS_L2_SIZE: __, ...env } = process.env;
  if (!existsSync(python)) return null;
  const child = spawn(python, [script], { env, stdio: ['pipe', 'pipe', 'ignore'] });
  child.stdin.on('error', () => {});
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  child.stdin.write(`${JSON.stringify(model)}\n`);
  const first = await lines.next();
  if (first.done) return null;
  return {
    version: JSON.parse(first.value).scipy,
    ask: async (/** @type {object} */ what) => {
      child.stdin.write(`${JSON.stringify(what)}\n`);
      const line = await lines.next();
      if (line.done) throw new Error('SciPy ended before it was done.');
      return JSON.parse(line.value);
    },
    end: () => child.stdin.end(),
  };
}

const { fitOneNode } = await import(new URL('fitting/index.js', dist).href);
const { timesS, temperaturesK, powerW } = log();
const data = {
  temperature: { timesS: Float64Array.from(timesS), temperaturesK: Float64Array.from(temperaturesK) },
  power: { timesS: Float64Array.from(timesS), powerW: Float64Array.from(powerW) },
  ambient: truth.ambientK,
};
/** A start that a person would guess; ours finds its own. */
const start = [5e-5, 1e-4, temperaturesK[0]];
const other = await scipy({ temperaturesK, powerW, ambientK: truth.ambientK, stepS: 1, blockS: 60 });
/** @type {Record<string, any>} */
const last = {};
const ask = (/** @type {string} */ how) => async () => {
  last[how] = await other?.ask({ how, start });
};
const jobs = {
  heatledger: () => fitOneNode(data),
  ...(other ? { 'SciPy, block means': ask('blocks'), 'SciPy, every reading': ask('native') } : {}),
};
const times = await alternate(jobs, ROUNDS);
other?.end();

const fit = fitOneNode(data);
const print = (/** @type {string} */ line) => process.stdout.write(`${line}\n`);
const figures = (/** @type {readonly number[]} */ values, /** @type {readonly number[]} */ u) =>
  values.map((value, j) => `${value.toPrecision(8)} (u ${u[j]?.toPrecision(2)})`).join('  ');
print(`${timesS.length} readings of temperature and power; κ/C in K/J, UA/C in 1/s, first temperature in K.`);
print(
  `heatledger            ${figures(
    fit.parameters.map((/** @type {any} */ p) => p.value),
    fit.parameters.map((/** @type {any} */ p) => p.standardUncertainty),
  )}  ${fit.evaluations} evaluations`,
);
for (const [how, name] of [
  ['blocks', 'SciPy, block means  '],
  ['native', 'SciPy, every reading'],
])
  print(
    `${name}  ${last[how] ? `${figures(last[how].parameters, last[how].standardErrors)}  ${last[how].evaluations} evaluations` : '(none: apt-get install python3-scipy)'}`,
  );
print(`truth                 ${figures([truth.heatingRate, truth.lossRate, truth.startK], [0, 0, 0])}`);
// The same analysis on both sides must give the same figures, to a hundredth of their uncertainty.
const same =
  other === null ||
  fit.parameters.every(
    (/** @type {any} */ p, /** @type {number} */ j) =>
      Math.abs(p.value - last.blocks.parameters[j]) <= 0.01 * p.standardUncertainty,
  );
print(`SciPy's block means give the same parameters: ${other ? (same ? 'yes' : 'NO') : 'not compared'}`);
const of = (/** @type {string} */ name) => median(times[name] ?? [Number.NaN]);
const ours = of('heatledger');
// The bar is the quicker of both ways.
const scipyMs = Math.min(of('SciPy, block means'), of('SciPy, every reading'));
const outcome = other ? verdict(ours, ALLOWED * scipyMs) : { ratio: /** @type {any} */ (null), holds: true };
const round = (/** @type {number} */ value) => Number(value.toFixed(3));
conclude(
  times,
  { ...outcome, holds: outcome.holds && same },
  {
    bench: 'fit',
    readings: timesS.length,
    heatledgerMs: round(ours),
    scipyMs: other ? round(scipyMs) : null,
    oursOverScipy: other ? round(ours / scipyMs) : null,
    scipy: other?.version ?? null,
    same: other ? same : null,
    peakMb: round(process.resourceUsage().maxRSS / 1024),
  },
);
