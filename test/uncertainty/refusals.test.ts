import { describe, expect, it } from 'vitest';
import {
  add,
  constant,
  divide,
  errorOf,
  lift,
  multiply,
  power,
  propagate,
  SourceBook,
  sensitivities,
  source,
} from '../../src/uncertainty/index.js';

const coded = (code: string, sentence: RegExp) =>
  expect.objectContaining({ code, message: expect.stringMatching(sentence) });

describe('an error source', () => {
  it.each([
    ['nothing said of its size', {}],
    ['no number', { standardUncertainty: Number.NaN }],
    ['a negative size', { standardUncertainty: -0.1 }],
    ['an infinite size', { standardUncertainty: Number.POSITIVE_INFINITY }],
    ['a half-width that is no number', { halfWidth: Number.NaN }],
    ['a negative half-width', { halfWidth: -1 }],
    ['a half-width of a shape without bounds', { halfWidth: 1, distribution: 'normal' as const }],
  ])('with %s is refused: unknown is never zero', (_what, size) =>
    expect(() => source({ id: 'x', name: 'gain', ...size })).toThrow(
      coded('uncertainty-unknown', /"gain".*zero or more.*Unknown is never zero/),
    ),
  );
  it.each([0, -1, Number.NaN])('with %d degrees of freedom is refused', (degreesOfFreedom) =>
    expect(() => source({ id: 'x', name: 'gain', standardUncertainty: 1, degreesOfFreedom })).toThrow(
      coded('degrees-of-freedom-bad', /"gain" must be more than zero/),
    ),
  );
  it('of size zero is one that is known to be nothing', () => {
    const found = propagate(
      add(constant(5), errorOf(source({ id: 'x', name: 'x', standardUncertainty: 0, degreesOfFreedom: 3 }))),
    );
    expect(found.standardUncertainty).toBe(0);
    expect(found.degreesOfFreedom).toBe(Number.POSITIVE_INFINITY);
    expect(found.budget.map((row) => row.share)).toEqual([0]);
  });
  it.each([
    [{ halfWidth: 1 }, 'rectangular'],
    [{ standardUncertainty: 1 }, 'normal'],
    [{ standardUncertainty: 1, degreesOfFreedom: 4 }, 't'],
  ] as const)('given by %j is %s', (size, distribution) =>
    expect(source({ id: 'x', name: 'x', ...size }).distribution).toBe(distribution),
  );
});

describe('a coverage', () => {
  it.each([0, 1, -0.1, 1.1, 95, Number.NaN])('of %d is refused', (coverage) =>
    expect(() => propagate(constant(1), { coverage })).toThrow(coded('coverage-bad', /between 0 and 1/)),
  );
});

describe('one id', () => {
  const offset = { id: 'thermometer:offset', name: 'offset', halfWidth: 0.5 };
  it('carried by two sources is refused, naming the id', () => {
    const sum = add(errorOf(source(offset)), errorOf(source(offset)));
    expect(() => sensitivities(sum)).toThrow(coded('source-clash', /"thermometer:offset"/));
  });
  it('asked for twice from a book is one source', () => {
    const book = new SourceBook();
    expect(book.get(offset)).toBe(book.get({ ...offset, name: 'offset, said in another way' }));
    expect(
      propagate(add(errorOf(book.get(offset)), errorOf(book.get(offset)))).standardUncertainty,
    ).toBeCloseTo(1 / Math.sqrt(3), 12);
  });
  it.each([
    { halfWidth: 0.4 },
    { distribution: 'arcsine' as const },
    { degreesOfFreedom: 5 },
    { scope: 'instrument' as const },
  ])('asked for again with %j is refused', (change) => {
    const book = new SourceBook();
    book.get(offset);
    expect(() => book.get({ ...offset, ...change })).toThrow(coded('source-clash', /"thermometer:offset"/));
  });
});

describe('a quantity that is no finite number', () => {
  it.each([
    ['a constant', () => constant(Number.NaN)],
    ['a sum', () => add(constant(1.7e308), constant(1.7e308))],
    ['a product', () => multiply(constant(1e200), constant(1e200))],
    ['a quotient by zero', () => divide(constant(1), constant(0))],
    ['a root of a negative', () => power(constant(-1), 0.5)],
    ['a root at zero, whose slope has no end', () => power(constant(0), 0.5)],
    ['a logarithm of zero', () => lift('logarithm', ([x]) => Math.log(x!), [1], constant(0))],
    ['a slope', () => lift('logarithm', ([x]) => Math.log(x!), [Number.NaN], constant(1))],
  ])('is refused: %s', (_what, make) => expect(make).toThrow(coded('value-not-finite', /finite number/)));
  it('is not made by an exponent of zero at zero', () => {
    expect(power(constant(0), 0).value).toBe(1);
    expect(power(constant(0), 1).partials).toEqual([1]);
  });
});
