import { describe, expect, it } from 'vitest';
import { figureData } from '../../src/cli/views/figureData.js';
import { forFigure, heatingRequest } from '../../src/cli/views/heatingRequest.js';
import { predictionFor } from '../../src/cli/views/predictionView.js';
import {
  evaluateFigure,
  type Figure,
  type HeatingRequest,
  type KnownTransfer,
  predictFigure,
  testedRange,
  transferFromFills,
} from '../../src/evaluation/index.js';
import { twoFills } from '../../src/fitting/index.js';
import { add, constant, errorOf, multiply, SourceBook } from '../../src/uncertainty/index.js';
import { kelvin } from './dairy.js';
import { evaluatedHeating, type Given, heated, logOf, type Model, vat } from './heating.js';

/** Nothing is lost on the heater's side: κ is 1 and the truth of a prediction is plain. */
const lidded: Model = { ...vat, bodyUaWPerK: 0, startC: 19 };
const assumed = { relative: 0.02, words: 'assumed' };

/** A figure of three runs of `model`; with `transfer` of that. */
function figureOf(model: Model, given: Partial<Given> = {}, transfer: KnownTransfer | null = null): Figure {
  const book = new SourceBook();
  const runs = [1, 2, 3].map(
    (n) => evaluatedHeating({ model, log: logOf(heated(model)), book, id: `run-${n}`, ...given }).evaluation,
  );
  return evaluateFigure(runs, 'water', assumed, 0.95, transfer)!;
}

const loss = (value: number) => ({
  uaWPerK: add(
    constant(value),
    errorOf(new SourceBook().get({ id: 'ua', name: 'loss', halfWidth: 0.2, scope: 'heater' })),
  ),
  from: 'a cool-down',
});

/** κ, UA and C_b from two fills with one meter: their doubts hang together. */
function fromFills(model: Model): KnownTransfer {
  const gain = errorOf(new SourceBook().get({ id: 'gain', name: 'gain of the meter', halfWidth: 0.01 }));
  const range = testedRange([2, 6].map((waterKg) => ({ conditions: { ...conditions, waterKg } })));
  const fills = [2, 6].map((kg) => {
    const load = kg * 4182;
    const all = load + model.vesselJPerK + model.bodyJPerK;
    return {
      loadHeatCapacityJPerK: constant(load),
      heatingRate: multiply(constant(1 / all), add(constant(1), gain)),
      lossRate: constant(model.uaWPerK / all),
    };
  });
  const vessel = constant(model.vesselJPerK);
  return transferFromFills(twoFills(fills, vessel), [2, 6], vessel, range, 'the runs at two fills');
}

const conditions = {
  startK: kelvin(14),
  endK: kelvin(66),
  meanPowerW: 880,
  ambientK: kelvin(19),
  waterKg: 6,
};

/** How long a heating takes until the load turns at `endC`, by the model itself: bisection on the time of heating. */
function trueTime(model: Model, endC: number): number {
  const all = model.waterKg * 4182 + model.vesselJPerK + model.bodyJPerK;
  const least = (all * (endC - model.startC)) / model.powerW;
  let [low, high] = [Math.floor(0.9 * least), Math.ceil(1.3 * least)];
  while (high - low > 1) {
    const middle = Math.round((low + high) / 2);
    if (heated({ ...model, heatingS: middle, beforeS: 60, afterS: 600 }).t2 < endC) low = middle;
    else high = middle;
  }
  return high;
}

const asked = (model: Model, endC: number, more: Partial<HeatingRequest> = {}): HeatingRequest => ({
  massKg: model.waterKg,
  startK: kelvin(model.startC),
  endK: kelvin(endC),
  powerW: model.powerW,
  ambientK: kelvin(model.roomC),
  ...more,
});

describe('a heating foretold from two fills', () => {
  const figure = figureOf(lidded, {}, fromFills(lidded));
  it.each([
    ['another mass, end and power', { ...lidded, waterKg: 3.5, powerW: 600 }, 62],
    ['a mass beyond the fills', { ...lidded, waterKg: 8 }, 60],
    ['a cold start in a warm room', { ...lidded, waterKg: 5, startC: 8, roomC: 26 }, 55],
  ] as const)('takes what the model takes: %s', (_name, model, endC) => {
    const { timeS, energyJ, efficiency } = predictFigure(figure, asked(model, endC));
    const truth = trueTime(model, endC);
    // The load turns before it has all of the body's heat, and the body lags: within 1 %, and within the doubt.
    expect(Math.abs(timeS.value / truth - 1)).toBeLessThan(0.01);
    expect(timeS.interval[0]).toBeLessThan(truth);
    expect(timeS.interval[1]).toBeGreaterThan(truth);
    expect(energyJ.value).toBeCloseTo(timeS.value * model.powerW, 6);
    const { truth: heats, inputJ } = heated({ ...model, heatingS: truth, beforeS: 60 });
    expect(Math.abs(efficiency.value - heats.water / inputJ)).toBeLessThan(0.01);
  });

  it('is as doubtful as the meter and the scatter', () => {
    const { energyJ } = predictFigure(figure, asked(lidded, 60));
    const names = energyJ.budget.map(({ source }) => source.name);
    expect(names).toContain('gain of the meter');
    expect(names.some((name) => name.startsWith('scatter from heating to heating'))).toBe(true);
  });

  it('stands in JSON with covariance, range and where it is from', () => {
    const { transfer } = JSON.parse(JSON.stringify(figureData(figure)));
    expect(transfer.kappa.value).toBeCloseTo(1, 9);
    expect(transfer.bodyHeatCapacityJPerK.value).toBeCloseTo(lidded.bodyJPerK, 5);
    expect(transfer.ua.map(({ waterKg }: { waterKg: number }) => waterKg)).toEqual([2, 6]);
    // κ, two UA and the heater body.
    expect(transfer.covariance.map((row: number[]) => row.length)).toEqual([4, 4, 4, 4]);
    expect(Math.sqrt(transfer.covariance[0][0])).toBeCloseTo(transfer.kappa.standardUncertainty, 12);
    expect(transfer.range.waterKg).toEqual([2, 6]);
    expect(transfer.from).toBe('the runs at two fills');
  });

  it('takes UA between the fills in a straight line, and that of the nearest beyond', () => {
    const known = fromFills(lidded);
    const [low, high] = [constant(1), constant(3)];
    const ua = [
      { waterKg: 6, uaWPerK: high },
      { waterKg: 2, uaWPerK: low },
    ];
    const timeOf = (known: KnownTransfer, massKg: number) =>
      predictFigure(figureOf(lidded, {}, known), asked(lidded, 60, { massKg })).timeS.value;
    for (const [massKg, expected] of [
      [1, 1],
      [2, 1],
      [3, 1.5],
      [6, 3],
      [9, 3],
    ] as const) {
      const plain = [{ waterKg: 1, uaWPerK: constant(expected) }];
      expect(timeOf({ ...known, ua }, massKg)).toBeCloseTo(timeOf({ ...known, ua: plain }, massKg), 9);
    }
  });

  it('outside of what was tested comes with a note each', () => {
    const far = asked(lidded, 80, {
      massKg: 12,
      powerW: 1500,
      startK: kelvin(4),
      ambientK: kelvin(30),
    });
    const { warnings } = predictFigure(figure, far);
    expect(warnings.map((warning) => warning.split(' of ')[0])).toEqual([
      'A mass',
      'A power',
      'A start',
      'An end',
      'A room',
    ]);
    expect(warnings[0]).toBe(
      'A mass of 12.0 kg is outside of what was tested (2.0 kg to 6.0 kg): nothing checks it there.',
    );
    expect(predictFigure(figure, asked(lidded, 62, { massKg: 4 })).warnings).toEqual([]);
  });
});

describe('a heating foretold from one fill and a known loss', () => {
  const figure = figureOf(lidded, { loss: loss(lidded.uaWPerK) });

  it('has κ by the heat balance, for this fill', () => {
    const { transfer, losses } = figure;
    expect(transfer!.bodyHeatCapacityJPerK).toBeNull();
    expect(transfer!.from).toMatch(
      /^the heat balances of its runs, with the loss to the room from a cool-down$/,
    );
    expect(losses!.uaWPerK.value).toBeCloseTo(lidded.uaWPerK, 12);
    const { truth, inputJ } = heated(lidded);
    expect(transfer!.kappa.value).toBeCloseTo((truth.water + truth.vessel + truth.room) / inputJ, 3);
  });

  it('takes what the model takes with the same mass, another end and power', () => {
    const model = { ...lidded, powerW: 700 };
    const { timeS } = predictFigure(figure, asked(model, 50));
    const truth = trueTime(model, 50);
    expect(Math.abs(timeS.value / truth - 1)).toBeLessThan(0.01);
    expect(timeS.interval[0]).toBeLessThan(truth);
    expect(timeS.interval[1]).toBeGreaterThan(truth);
  });

  it('refuses another mass: the heater body is missing', () =>
    expect(() => predictFigure(figure, asked(lidded, 60, { massKg: 2 }))).toThrow(
      expect.objectContaining({ code: 'fit-one-fill' }),
    ));

  it('carries the missing body as a source where it is stated', () => {
    const model = { ...lidded, waterKg: 2 };
    const found = predictFigure(figure, asked(model, 60, { mostBodyJPerK: 1600 }));
    const truth = trueTime(model, 60);
    expect(found.timeS.interval[0]).toBeLessThan(truth);
    expect(found.timeS.interval[1]).toBeGreaterThan(truth);
    expect(found.timeS.budget[0]!.source.name).toBe(
      'heat that stays in the heater body, which one fill can’t tell',
    );
    expect(found.assumptions).toContain('one fill only; the heater body holds between 0 and 1600 J/K');
    // With the body that it has there is left that it runs warmer than the load, by 8 K of 50.
    const exact = predictFigure(figure, asked(model, 60, { mostBodyJPerK: 2 * lidded.bodyJPerK }));
    expect(Math.abs(exact.timeS.value / truth - 1)).toBeLessThan(0.02);
  });

  it('is carried by the record of a heater that states its body', () => {
    const model = { ...lidded, waterKg: 2 };
    const stated = figureOf(lidded, {
      heater: {
        bodyHeatCapacity: { value: lidded.bodyJPerK, halfWidth: 100 },
        lossCoefficient: { value: lidded.uaWPerK, halfWidth: 0.2 },
      },
    });
    expect(stated.transfer!.bodyHeatCapacityJPerK!.value).toBeCloseTo(lidded.bodyJPerK, 6);
    const { timeS } = predictFigure(stated, asked(model, 60));
    // The balance takes the body as 0 to 10 K warmer than the load; of 46 K that is a tenth of its heat.
    expect(Math.abs(timeS.value / trueTime(model, 60) - 1)).toBeLessThan(0.02);
  });
});

describe('what can’t be foretold', () => {
  const figure = figureOf(lidded, {}, fromFills(lidded));
  it('without a known loss is refused with what is missing', () =>
    expect(() => predictFigure(figureOf(lidded), asked(lidded, 60))).toThrow(
      expect.objectContaining({ code: 'predict-unknown', message: expect.stringMatching(/cool-down/) }),
    ));
  it.each([
    ['no mass', { massKg: 0 }, 'load-bad'],
    ['a mass below zero', { massKg: -1 }, 'load-bad'],
    ['a mass that is no number', { massKg: Number.NaN }, 'load-bad'],
    ['no power', { powerW: 0 }, 'load-bad'],
    ['an end below the start', { endK: kelvin(10) }, 'load-bad'],
    ['an end that is no number', { endK: Number.NaN }, 'load-bad'],
    ['a room that is no number', { ambientK: Number.NaN }, 'load-bad'],
    ['an end above the boiling point', { endK: kelvin(110) }, 'water-not-liquid'],
    ['so little power that it never gets there', { powerW: 50 }, 'target-unreachable'],
  ] as [string, Partial<HeatingRequest>, string][])('%s', (_name, change, code) =>
    expect(() => predictFigure(figure, asked(lidded, 60, change))).toThrow(expect.objectContaining({ code })),
  );
  it('a room that nobody read is assumed, as a source', () => {
    const unread = figureOf(lidded, { ambientC: null }, fromFills(lidded));
    const { timeS, assumptions } = predictFigure(unread, asked(lidded, 60, { ambientK: null }));
    expect(assumptions).toContain('a room at 20 °C, give or take 5 K');
    expect(timeS.budget.some(({ source }) => source.id === 'predict:room')).toBe(true);
  });
});

describe('--predict', () => {
  it.each([
    ['8 kg, 12 °C to 65 °C, 900 W', { massKg: 8, startK: 285.15, endK: 338.15, powerW: 900, ambientK: null }],
    ['12 to 65 °C, 8,5 kg', { massKg: 8.5, startK: 285.15, endK: 338.15, powerW: null, ambientK: null }],
    [
      '0.9 kW; 50 °F to 149 °F; 8 kg; room 18 °C; body up to 1.5 kJ/K',
      { massKg: 8, startK: 283.15, endK: 338.15, powerW: 900, ambientK: 291.15, mostBodyJPerK: 1500 },
    ],
    ['from 12 to 65, 8 kg', { massKg: 8, startK: 285.15, endK: 338.15, powerW: null, ambientK: null }],
    ['-2 to 65 °C, 8 kg', { massKg: 8, startK: 271.15, endK: 338.15, powerW: null, ambientK: null }],
  ])('reads "%s"', (text, expected) => {
    const found = heatingRequest(text, 'si');
    expect(Object.keys(found).sort()).toEqual(Object.keys(expected).sort());
    for (const [key, value] of Object.entries(expected)) {
      const got = found[key as keyof typeof found];
      if (value === null) expect(got).toBeNull();
      else expect(got).toBeCloseTo(value, 9);
    }
  });
  it.each([
    ['', /""|nothing/],
    ['8 kg', /there is no start in it/],
    ['12 °C to 65 °C', /there is no mass in it/],
    ['8 kg, 9 kg, 12 °C to 65 °C', /the mass stands there twice/],
    ['8 kg, 12 °C to 65 °C, soon', /"soon" is neither a mass, a power, nor a start and an end/],
    ['8, 12 °C to 65 °C', /"8" is neither a mass, a power, nor a start and an end/],
    ['8 kg, 12 kg to 65 °C', /temperature/],
  ])('refuses "%s"', (text, message) => {
    expect(() => heatingRequest(text, 'si')).toThrow(
      expect.objectContaining({ message: expect.stringMatching(message), place: { key: '--predict' } }),
    );
  });

  const figure = figureOf(lidded, {}, fromFills(lidded));
  it('answers in words first, the power that of the runs where none is stated', () => {
    const request = heatingRequest('4 kg, 12 to 65 °C', 'si');
    expect(forFigure(request, figure).powerW).toBeCloseTo(880, 6);
    const { lines, error } = predictionFor(figure, request, { units: 'si', detail: false });
    expect(error).toBeNull();
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(
      /^4 kg from 12 to 65 °C would take about \d\d(\.\d)? min and 0\.\d+ kWh \(0\.\d+ to 0\.\d+\)\.$/,
    );
  });
  it('tells what it takes for granted with --detail', () => {
    const request = heatingRequest('4 kg, 12 to 65 °C', 'si');
    const { lines } = predictionFor(figure, request, { units: 'si', detail: true });
    expect(lines.join('\n')).toMatch(
      /taken for granted: mass, temperatures and power as stated; .*room at 19\.0 °C/,
    );
    expect(lines.join('\n')).toMatch(/\d+ % of the doubt: /);
  });
  it('says why a figure can’t tell', () => {
    const request = heatingRequest('4 kg, 12 to 65 °C', 'si');
    const { lines, data, error } = predictionFor(figureOf(lidded), request, { units: 'si', detail: false });
    expect(error?.code).toBe('predict-unknown');
    expect(lines).toEqual([error?.message]);
    expect(data).toMatchObject({ error: { code: 'predict-unknown' } });
  });
});
