import { problem } from '../errors/index.js';

/**
 * Numerical tolerance of a standard uncertainty given to 1 to 4 significant digits: with u = c·10^l, c a whole number
 * of so many digits, δ = ½·10^l. Source: JCGM 101:2008, 7.9.2.
 *
 * Throws `digits-bad`, and `uncertainty-unknown` unless u is finite and above zero.
 *
 * @example
 * numericalTolerance(0.0754, 1) // => 0.005
 * numericalTolerance(0.0754, 2) // => 0.0005
 */
export function numericalTolerance(standardUncertainty: number, digits: number): number {
  if (!(digits >= 1 && digits <= 4 && Number.isInteger(digits)))
    throw problem('digits-bad', { got: String(digits) });
  if (!(standardUncertainty > 0 && standardUncertainty < Number.POSITIVE_INFINITY))
    throw problem('uncertainty-unknown', { source: 'the result', got: String(standardUncertainty) });
  const exponent = Number(standardUncertainty.toExponential(digits - 1).split('e')[1]);
  return 0.5 * 10 ** (exponent - digits + 1);
}
