import { describe, expect, it } from 'vitest';
import { detailWords, evaluateFigure } from '../../src/evaluation/index.js';
import { SourceBook } from '../../src/uncertainty/index.js';
import { figureData } from '../../src/cli/views/figureData.js';
import { evaluatedHeating, type Given, heated, logOf, type Model, vat } from './heating.js';

/** Nothing is lost on the heater's side, so that the loss of the load is all there is to correct. */
const lidded: Model = { ...vat, bodyUaWPerK: 0 };
const open: Model = { ...lidded, vapour: 1e-9 };

/** Normal noise by a seeded generator (mulberry32, Box and Muller; from memory). */
function noise(seed: number, sigma: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return (((t ^ (t >>> 14)) >>> 0) + 0.5) / 4294967296;
  };
  return () => sigma * Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** The same heating in a room that takes nothing: heat in the water once body and load are alike, over the energy. */
function withoutLoss(model: Model): number {
  const { truth, inputJ } = heated({ ...model, uaWPerK: 0, afterS: 2400 });
  return truth.water / inputJ;
}

const freeOf = (given: Given) => evaluatedHeating(given).evaluation.lossFree!;

describe('the efficiency without the loss to the room', () => {
  it.each([
    ['under a lid', lidded, 1],
    ['under a lid, in a cold room', { ...lidded, roomC: 10, startC: 12 }, 2],
    ['under a lid, at low power for long', { ...lidded, powerW: 300, heatingS: 4800 }, 3],
    ['of an open vat', open, 4],
  ] as const)('is recovered %s', (_name, model, seed) => {
    const run = heated(model);
    const { evaluation } = evaluatedHeating({ model, log: logOf(run, noise(seed, 0.02)) });
    const plain = evaluation.efficiency.water!;
    const free = evaluation.lossFree!.efficiency!;
    const truth = withoutLoss(model);
    const correction = truth - plain.value;
    // There is something to correct, and it is corrected within the stated doubt.
    expect(correction).toBeGreaterThan(0.02);
    expect(Math.abs(free.value - truth)).toBeLessThan(free.expandedUncertainty);
    // The correction itself to a tenth: what vapour, the lag of the heater body and 0.02 K of noise leave.
    expect(Math.abs(free.value - truth)).toBeLessThan(0.1 * correction);
  });

  it('gives no vapour back: it is booked by weighing', () => {
    const given = { model: open, log: logOf(heated(open)) };
    const { evaluation, run } = evaluatedHeating(given);
    const givenBack = evaluation.lossFree!.efficiency!.value - evaluation.efficiency.water!.value;
    const { room, vapour } = run.truth;
    // Of what the room took, the part that would have gone into the water (the rest into vessel and body).
    expect(givenBack * run.inputJ).toBeLessThan(1.05 * room);
    expect(vapour).toBeGreaterThan(0.2 * room);
  });

  it('rests on the same sources as the plain one, and a few more', () => {
    const { evaluation } = evaluatedHeating({ model: lidded, log: logOf(heated(lidded)) });
    const plain = new Set(evaluation.efficiency.water!.budget.map(({ source }) => source));
    const free = evaluation.lossFree!.efficiency!.budget.map(({ source }) => source);
    for (const source of plain) expect(free).toContain(source);
    const own = free.filter((source) => !plain.has(source)).map(({ id }) => id.split(':loss-free:')[1]);
    expect(own.filter((what) => what !== undefined).sort()).toEqual(
      ['after-steps', 'before-steps', 'law', 'scatter', 'vapour'].sort(),
    );
  });

  it('is never the headline, and stands beside it with --detail and in JSON', () => {
    const book = new SourceBook();
    const runs = ['1', '2', '3'].map(
      (id, i) =>
        evaluatedHeating({
          model: lidded,
          log: logOf(heated(lidded), noise(i + 9, 0.02)),
          book,
          id: `run-${id}`,
        }).evaluation,
    );
    const figure = evaluateFigure(runs, 'water', { relative: 0.02, words: 'assumed' })!;
    expect(figure.efficiency.value).toBeCloseTo(runs[0]!.efficiency.water!.value, 9);
    const [low, high] = figure.lossFree!.interval;
    expect(low).toBeLessThan(withoutLoss(lidded));
    expect(high).toBeGreaterThan(withoutLoss(lidded));
    expect(detailWords(figure).join('\n')).toMatch(
      /\n {2}without the loss to the room: \d\d\.\d+ ± \d\.\d+ %/,
    );
    const data = JSON.parse(JSON.stringify(figureData(figure)));
    expect(data.lossFree.value).toBeCloseTo(figure.lossFree!.value, 12);
    expect(data.runs[0].lossFree.why).toBeNull();
  });

  it('of a figure needs all of its runs', () => {
    const book = new SourceBook();
    const log = logOf(heated(lidded));
    const runs = [
      evaluatedHeating({ model: lidded, log, book, id: 'run-1' }).evaluation,
      evaluatedHeating({ model: lidded, book, id: 'run-2' }).evaluation,
    ];
    expect(evaluateFigure(runs, 'water', { relative: 0.02, words: 'assumed' })!.lossFree).toBeNull();
  });
});

describe('where it can’t be had, a sentence says why', () => {
  const log = logOf(heated(lidded));
  const short = { ...lidded, afterS: 200 };
  const still = { ...lidded, beforeS: 90 };
  const cold = { ...lidded, uaWPerK: 0 };
  /** A thermometer that lay in a warm hand before the heating. */
  const handled = (() => {
    const run = heated(lidded);
    return {
      ...run,
      loadsC: run.loadsC.map((c, i) => (run.timesS[i]! < 0 ? c + 0.004 * run.timesS[i]! : c)),
    };
  })();
  it.each([
    ['no log', { model: lidded }, 'No temperature log was kept.'],
    [
      'a log without a clock',
      { model: lidded, log: { ...log, startUtcMs: null } },
      'The clock of the temperature log isn’t known.',
    ],
    [
      'too little rest before',
      { model: still, log: logOf(heated(still)) },
      /^The log shows 1\.5 min of rest before switch-on; 2 min or more are needed\.$/,
    ],
    [
      'a log that ends soon',
      { model: short, log: logOf(heated(short)) },
      /^(The log shows no steady fall|After switch-off the log shows the vessel at rest for 3\.3 min; )/,
    ],
    [
      'a vessel that is weighed soon',
      { model: lidded, log, weighedS: lidded.heatingS + 60 },
      /^After switch-off the log shows the vessel at rest for 1 min; /,
    ],
    ['no loss', { model: cold, log: logOf(heated(cold)) }, 'The log shows no steady fall after the heating.'],
    [
      'no quiet before',
      { model: lidded, log: logOf(handled) },
      /^By its drifts the load would lose nothing at .* but the room was at 19\.0 °C: the periods .* were not quiet\.$/,
    ],
  ] as [string, Given, string | RegExp][])('%s', (_name, given, why) => {
    const found = freeOf(given);
    expect([found.efficiency, found.quantity]).toEqual([null, null]);
    expect(found.why).toMatch(why);
  });
  it('and only with --detail', () => {
    const { evaluation } = evaluatedHeating({ model: lidded });
    const figure = evaluateFigure([evaluation], 'water', { relative: 0.02, words: 'assumed' })!;
    expect(detailWords(figure)).toContain(
      '  without the loss to the room: can’t be told. No temperature log was kept.',
    );
    expect([...evaluation.warnings, ...figure.warnings].join(' ')).not.toMatch(/without the loss/);
  });
});
