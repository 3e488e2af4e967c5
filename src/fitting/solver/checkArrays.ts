import { problem } from '../../errors/index.js';

/** A copy of the values, each checked to be finite; `what` is followed by the number of the value. */
export function finiteCopy(
  name: string,
  what: string,
  values: ArrayLike<number>,
  count: number,
  counted: string,
): Float64Array {
  checkCount(name, values, count, counted);
  const copy = Float64Array.from(values);
  const bad = copy.findIndex((value) => !Number.isFinite(value));
  if (bad >= 0) throw problem('value-not-finite', { what: `${what} ${bad + 1}`, got: String(values[bad]) });
  return copy;
}

/** Weights of zero or more, not all of them zero. */
export function weightsCopy(values: ArrayLike<number>, count: number, counted: string): Float64Array {
  const copy = finiteCopy('weights', 'The weight of point', values, count, counted);
  const bad = copy.findIndex((value) => value < 0);
  if (bad >= 0)
    throw problem('fit-input-bad', {
      what: `The weight of point ${bad + 1}`,
      expected: 'zero or more',
      got: String(copy[bad]),
    });
  if (copy.every((value) => value === 0))
    throw problem('fit-input-bad', {
      what: 'At least one weight',
      expected: 'above zero',
      got: 'only zeros',
    });
  return copy;
}

/** Bounds, infinite where there is none. */
export function boundsCopy(
  name: string,
  values: ArrayLike<number> | undefined,
  parameters: readonly string[],
  none: number,
): Float64Array {
  if (values === undefined) return new Float64Array(parameters.length).fill(none);
  checkCount(name, values, parameters.length, 'parameters');
  const copy = Float64Array.from(values);
  const bad = copy.findIndex((value) => Number.isNaN(value) || value === -none);
  if (bad >= 0)
    throw problem('fit-input-bad', {
      what: `The ${name} bound of ${parameters[bad]}`,
      expected: `a number, or ${none} for none`,
      got: String(values[bad]),
    });
  return copy;
}

/** Throws unless the start lies inside the bounds, and the bounds the right way round. */
export function checkInside(
  names: readonly string[],
  start: Float64Array,
  lower: Float64Array,
  upper: Float64Array,
): void {
  names.forEach((name, j) => {
    if (!(lower[j]! < upper[j]!))
      throw problem('fit-input-bad', {
        what: `The lower bound of ${name}`,
        expected: `below its upper bound ${upper[j]}`,
        got: String(lower[j]),
      });
    if (start[j]! < lower[j]! || start[j]! > upper[j]!)
      throw problem('fit-input-bad', {
        what: `The start of ${name}`,
        expected: `from ${lower[j]} to ${upper[j]}, its bounds`,
        got: String(start[j]),
      });
  });
}

/** Throws unless there are as many values as `counted` says. */
export function checkCount(name: string, values: ArrayLike<unknown>, count: number, counted: string): void {
  if (values.length !== count)
    throw problem('lengths-differ', {
      first: name,
      firstLength: values.length,
      second: counted,
      secondLength: count,
    });
}
