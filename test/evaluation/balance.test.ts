import { describe, expect, it } from 'vitest';
import { detailWords, evaluateFigure, type KnownLoss } from '../../src/evaluation/index.js';
import { add, constant, errorOf, propagate, SourceBook } from '../../src/uncertainty/index.js';
import { heaterSchema } from '../../src/workbook/schemas/heater.js';
import { evaluatedHeating, type Given, heated, logOf, type Model, vat } from './heating.js';

type Evaluation = ReturnType<typeof evaluatedHeating>['evaluation'];
const booked = (run: Evaluation, name: string) => run.balance.find((booking) => booking.name === name)!.heat;
const names = (run: Evaluation) => run.balance.map(({ name }) => name);

/** An open vat: vapour takes more than half of what the room does. */
const open: Model = { ...vat, vapour: 1.4e-9 };

/** UA known to ± 0.1 W/K from elsewhere. */
const lossOf = (value: number, more: Partial<KnownLoss> = {}): KnownLoss => ({
  uaWPerK: add(
    constant(value),
    errorOf(
      new SourceBook().get({
        id: `ua:${value}`,
        name: 'loss coefficient',
        halfWidth: 0.1,
        scope: 'heater',
      }),
    ),
  ),
  from: 'a cool-down under a lid',
  ...more,
});
const bodyOf = (value: number) => ({ heatCapacityJPerK: constant(value), from: 'two fills' });

describe('the balance of an open vat whose UA, without vapour, is known', () => {
  const run = heated(open);
  const given: Given = {
    model: open,
    log: logOf(run),
    loss: lossOf(open.uaWPerK),
    body: bodyOf(open.bodyJPerK),
  };
  const { evaluation } = evaluatedHeating(given);

  it('has an entry for each way out', () =>
    expect(names(evaluation)).toEqual(['water', 'vapour', 'vessel', 'heater body', 'room', 'rest']));

  it('is one in which the truth closes', () => {
    // Heun's method in steps of 1 s against a time constant of the body of a minute: 1e-5 of the flows.
    const { 'heater body': body, ...others } = run.truth;
    const sum = Object.values(others).reduce((total, heat) => total + heat, body);
    expect(Math.abs(sum / run.inputJ - 1)).toBeLessThan(2e-4);
    expect(run.truth.vapour).toBeGreaterThan(0.5 * run.truth.room);
  });

  it.each([
    // Of the entry: mass and enthalpy to display; mean temperature of the vapour; straight lines of 10 s.
    ['water', 1e-4],
    ['vapour', 0.005],
    ['vessel', 1e-4],
    ['room', 0.002],
  ] as const)('has the true %s', (name, within) => {
    const { value, standardUncertainty } = booked(evaluation, name);
    expect(Math.abs(value / run.truth[name] - 1)).toBeLessThan(within);
    expect(Math.abs(value - run.truth[name])).toBeLessThan(2 * standardUncertainty);
  });

  it('has the true heater body and rest within their doubt', () => {
    // The body is still warmer than the load when that turns, by its loss over the coupling: 0 to 10 K cover it.
    for (const name of ['heater body', 'rest'] as const) {
      const { value, standardUncertainty } = booked(evaluation, name);
      expect(Math.abs(value - run.truth[name])).toBeLessThan(2 * standardUncertainty);
    }
    expect(evaluation.warnings).toEqual([]);
  });

  it('adds up to the input, whatever is known', () => {
    for (const loss of [null, lossOf(open.uaWPerK), lossOf(9)]) {
      const { balance } = evaluatedHeating({ ...given, loss }).evaluation;
      const sum = balance.reduce((total, { heat }) => total + heat.value, 0);
      expect(Math.abs(sum - run.inputJ)).toBeLessThan(1e-9 * run.inputJ);
    }
  });

  it('leaves the headline alone', () => {
    const without = evaluatedHeating({ ...given, loss: null, body: null }).evaluation;
    expect(evaluation.efficiency).toEqual(without.efficiency);
    expect(names(without).at(-1)).toBe('room and rest, not separated');
    expect(without.loss).toBeNull();
  });

  it('takes the same thermometer for room and water', () => {
    // An error of T2 moves both: by w of it times UA, w the time weighted by the place between T1 and T2.
    const parts = booked(evaluation, 'room').budget.filter(
      ({ source }) => source.instrument === 'thermometer-1',
    );
    const shared = booked(evaluation, 'water').budget.map(({ source }) => source);
    expect(parts.some(({ source }) => shared.includes(source) && source.scope !== 'reading')).toBe(true);
  });
});

describe('vapour', () => {
  const run = heated(open);
  const given: Given = { model: open, log: logOf(run), loss: lossOf(open.uaWPerK) };

  it('is booked once: room and vapour together are what left by both', () => {
    const { evaluation } = evaluatedHeating(given);
    const both = booked(evaluation, 'room').value + booked(evaluation, 'vapour').value;
    expect(Math.abs(both / (run.truth.room + run.truth.vapour) - 1)).toBeLessThan(0.003);
  });

  it('can’t be booked twice by a UA that holds it', () => {
    const loss = lossOf(4.1, { holdsVapour: true, from: 'an open cool-down' });
    const { evaluation } = evaluatedHeating({ ...given, loss });
    expect(names(evaluation)).toEqual(['water', 'vapour', 'vessel', 'room and rest, not separated']);
    expect(evaluation.loss?.why).toBe(
      'The loss coefficient from an open cool-down holds the heat of vapour, which is booked already: it would count twice.',
    );
    // Nor does it get into the figure.
    const figure = evaluateFigure([evaluation], 'water', { relative: 0.02, words: 'assumed' })!;
    expect([figure.losses, figure.transfer]).toEqual([null, null]);
  });
});

describe('where the course of the temperature is known from', () => {
  const run = heated(vat);
  const given: Given = { model: vat, loss: lossOf(vat.uaWPerK) };
  const cases = [
    evaluatedHeating({ ...given, log: logOf(run) }).evaluation,
    evaluatedHeating({ ...given, interimS: [400, 800, 1200] }).evaluation,
    evaluatedHeating(given).evaluation,
  ];
  it('is said', () => expect(cases.map(({ loss }) => loss?.course)).toEqual(['log', 'readings', 'ends']));
  it('gives the true heat to the room within its doubt, which grows', () => {
    const doubts = cases.map((evaluation) => {
      const { value, standardUncertainty } = booked(evaluation, 'room');
      expect(Math.abs(value - run.truth.room)).toBeLessThan(2 * standardUncertainty);
      return standardUncertainty;
    });
    expect(doubts).toEqual([...doubts].sort((a, b) => a - b));
  });
  it('has the doubt of a straight line as a source', () => {
    const row = booked(cases[2]!, 'room').budget.find(({ source }) => source.id.endsWith(':course'))!;
    expect(row.source.assumed).toBe(true);
    // A tenth of the rise over the heating.
    const halfWidth = 0.1 * (run.t2 - run.t1) * vat.heatingS;
    expect(row.source.standardUncertainty * Math.sqrt(3)).toBeCloseTo(halfWidth, 6);
  });
  it('a log that begins late is filled up with what was read', () => {
    const whole = logOf(run);
    const from = whole.timesS.findIndex((t) => t > vat.beforeS + 300);
    const late = {
      ...whole,
      startUtcMs: whole.startUtcMs! + whole.timesS[from]! * 1000,
      timesS: whole.timesS.slice(from).map((t) => t - whole.timesS[from]!),
      temperatureK: whole.temperatureK!.slice(from),
    };
    const { value, standardUncertainty } = booked(
      evaluatedHeating({ ...given, log: late }).evaluation,
      'room',
    );
    expect(Math.abs(value - run.truth.room)).toBeLessThan(2 * standardUncertainty);
  });
});

describe('the rest', () => {
  it('below zero by more than its doubt is said, with where to look', () => {
    const { evaluation } = evaluatedHeating({ model: vat, loss: lossOf(9) });
    const { value, standardUncertainty } = booked(evaluation, 'rest');
    expect(value).toBeLessThan(-2 * standardUncertainty);
    expect(evaluation.warnings.join(' ')).toMatch(
      /More heat is booked than the meter saw: 0\.\d+ kWh too much, .* or a loss to the room that is stated too high\./,
    );
  });
  it('below zero without a known loss is a wrong reading', () => {
    const { evaluation } = evaluatedHeating({ model: vat, metered: 0.8 });
    expect(evaluation.warnings.join(' ')).toMatch(/booked than the meter saw.*Look for a wrong reading\./);
  });
  it('within its doubt of zero is nothing to say', () => {
    const closed = { ...vat, bodyUaWPerK: 0 };
    const given = { model: closed, loss: lossOf(closed.uaWPerK), body: bodyOf(closed.bodyJPerK) };
    const { evaluation } = evaluatedHeating({ ...given, log: logOf(heated(closed)) });
    const { value, standardUncertainty } = booked(evaluation, 'rest');
    expect(Math.abs(value)).toBeLessThan(2 * standardUncertainty);
    expect(evaluation.warnings).toEqual([]);
  });
});

describe('where UA comes from', () => {
  const words = (evaluation: Evaluation) =>
    detailWords(evaluateFigure([evaluation], 'water', { relative: 0.02, words: 'assumed' })!).join('\n');
  it('is said with --detail', () => {
    const text = words(evaluatedHeating({ model: vat, loss: lossOf(2.2) }).evaluation);
    expect(text).toMatch(/room: 2\.20 ± 0\.11 W\/K from a cool-down under a lid/);
    expect(text).not.toMatch(/proves nothing/);
  });
  it('the same run makes a balance that proves nothing, and says so', () => {
    const loss = lossOf(2.2, { fromRuns: ['vat-warmer-full-01'] });
    const { evaluation } = evaluatedHeating({ model: vat, loss });
    expect(evaluation.loss?.fromThisRun).toBe(true);
    expect(words(evaluation)).toMatch(/measured in this very run: that its balance closes proves nothing/);
    const other = evaluatedHeating({ model: vat, loss, id: 'vat-warmer-full-02' }).evaluation;
    expect(other.loss?.fromThisRun).toBe(false);
  });
  it('is the record of the heater where nothing was measured', () => {
    const lossCoefficient = { value: 2.2, halfWidth: 0.3 };
    const { evaluation } = evaluatedHeating({ model: vat, heater: { lossCoefficient } });
    expect(evaluation.loss?.from).toBe('the record of the heater vat-warmer');
    expect(evaluation.loss?.uaWPerK.standardUncertainty).toBeCloseTo(0.3 / Math.sqrt(3), 12);
    const measured = evaluatedHeating({
      model: vat,
      heater: { lossCoefficient },
      loss: lossOf(2.1),
    }).evaluation;
    expect(measured.loss?.uaWPerK.value).toBe(2.1);
  });
  it('is one source for all runs of a figure', () => {
    const heater = { lossCoefficient: { value: 2.2, halfWidth: 0.3 } };
    const book = new SourceBook();
    const runs = ['1', '2', '3'].map(
      (id) => evaluatedHeating({ model: vat, heater, book, id: `run-${id}` }).evaluation,
    );
    const figure = evaluateFigure(runs, 'water', { relative: 0.02, words: 'assumed' })!;
    expect(figure.losses!.uaWPerK.standardUncertainty).toBeCloseTo(0.3 / Math.sqrt(3), 12);
    expect(figure.losses!.from).toBe('the record of the heater vat-warmer');
  });
});

describe('a room that can’t be separated', () => {
  it.each([
    [
      'nobody read the room',
      { ambientC: null, loss: lossOf(2.2) },
      'Nobody read the temperature of the room.',
    ],
    ['UA of zero', { loss: { uaWPerK: constant(0), from: 'a wish' } }, /from a wish is not above zero/],
    ['UA below zero', { loss: { uaWPerK: constant(-2), from: 'a fit' } }, /from a fit is not above zero/],
  ] as [string, Partial<Given>, string | RegExp][])('%s', (_name, change, why) => {
    const { evaluation } = evaluatedHeating({ model: vat, ...change });
    expect(names(evaluation).at(-1)).toBe('room and rest, not separated');
    expect(evaluation.loss?.why).toMatch(why);
    expect(propagate(evaluation.loss!.quantity).value).toBe(change.loss!.uaWPerK.value);
  });
});

describe('lossCoefficient in the record of a heater', () => {
  const record = (lossCoefficient: unknown) =>
    heaterSchema.safeParse({
      schema: 1,
      id: 'vat',
      name: 'vat',
      settings: [{ id: 'full' }],
      lossCoefficient,
    });
  it('is read with its unit, or in W/K', () => {
    expect(record({ value: '2.4 W/K', halfWidth: 0.3 }).data?.lossCoefficient).toEqual({
      value: 2.4,
      halfWidth: 0.3,
    });
  });
  it.each([
    ['without a doubt', { value: '2.4 W/K' }],
    ['of zero', { value: '0 W/K', halfWidth: '0.3 W/K' }],
    ['in watts', { value: '2.4 W', halfWidth: '0.3 W/K' }],
    ['as a bare number', 2.4],
  ])('%s is refused', (_name, value) => expect(record(value).success).toBe(false));
});
