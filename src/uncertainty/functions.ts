import { lift } from './arithmetic.js';
import { cosineOf, exponentialOf, logarithmOf, sineOf } from './monteCarlo/elementary.js';
import type { Elementary, Quantity } from './Quantity.js';

function elementary(name: Elementary, f: (x: number) => number, slope: number, of: Quantity): Quantity {
  const text = {
    cosine: 'A cosine',
    sine: 'A sine',
    exponential: 'An exponential',
    logarithm: 'A logarithm',
  };
  return { ...lift(text[name], ([x]) => f(x as number), [slope], of), elementary: name };
}

/**
 * Cosine of an angle in radians, up to 1e5. Throws `value-not-finite` beyond.
 *
 * @example
 * cosine(constant(1.04446)).value // => 0.502369
 */
export function cosine(angle: Quantity): Quantity {
  return elementary('cosine', cosineOf, -sineOf(angle.value), angle);
}

/**
 * Sine of an angle in radians, up to 1e5. Throws `value-not-finite` beyond.
 *
 * @example
 * sine(constant(0.5)).value // => 0.479426
 */
export function sine(angle: Quantity): Quantity {
  return elementary('sine', sineOf, cosineOf(angle.value), angle);
}

/**
 * e to the power of a quantity. Throws `value-not-finite` where it is out of range.
 *
 * @example
 * exponential(constant(1)).value // => 2.718282
 */
export function exponential(exponent: Quantity): Quantity {
  return elementary('exponential', exponentialOf, exponentialOf(exponent.value), exponent);
}

/**
 * Natural logarithm of a quantity. Throws `value-not-finite` unless it is above zero.
 *
 * @example
 * logarithm(constant(10)).value // => 2.302585
 */
export function logarithm(of: Quantity): Quantity {
  return elementary('logarithm', logarithmOf, 1 / of.value, of);
}
