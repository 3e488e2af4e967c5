import { problem } from '../errors/index.js';

/** Throws unless there are enough points at different x, all finite, with weights above zero. */
export function checkPoints(
  x: readonly number[],
  y: readonly number[],
  w: readonly number[] | undefined,
  degree: number,
): void {
  if (!(Number.isInteger(degree) && degree >= 0))
    throw problem('fit-input-bad', {
      what: 'The degree',
      expected: 'a whole number of zero or more',
      got: String(degree),
    });
  checkLengths('x', x, 'y', y);
  if (w) checkLengths('x', x, 'weights', w);
  checkFinite('x, point', x);
  checkFinite('y, point', y);
  w?.forEach((value, i) => {
    if (!(value > 0 && value < Number.POSITIVE_INFINITY))
      throw problem('fit-input-bad', {
        what: `The weight of point ${i + 1}`,
        expected: 'above zero and finite',
        got: String(value),
      });
  });
  const different = new Set(x).size;
  if (different < degree + 1)
    throw problem('fit-too-few-points', { degree, needed: degree + 1, got: different });
}

/** Throws unless both lists have the same length. */
export function checkLengths(
  first: string,
  a: readonly number[],
  second: string,
  b: readonly number[],
): void {
  if (a.length !== b.length)
    throw problem('lengths-differ', { first, firstLength: a.length, second, secondLength: b.length });
}

/** Throws unless all values are finite; `what` is followed by the number of the value. */
export function checkFinite(what: string, values: readonly number[]): void {
  values.forEach((value, i) => {
    if (!Number.isFinite(value))
      throw problem('value-not-finite', { what: `${what} ${i + 1}`, got: String(value) });
  });
}
