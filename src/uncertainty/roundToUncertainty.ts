import { problem } from '../errors/index.js';

export interface Rounded {
  readonly value: string;
  readonly uncertainty: string;
  /** Decimals shown; negative where tens or hundreds are rounded away. */
  readonly decimals: number;
}

/**
 * Rounds an uncertainty to two significant digits (JCGM 100 7.2.6) and the value to the same place. The one function
 * used wherever a result is shown. An uncertainty of zero is exact by definition and shows the value to six digits.
 *
 * For a sentence `digits` may be `'plain'`: one digit, but two where the first is a 1, so that rounding moves no end of an
 * interval by more than a quarter of its half-width.
 *
 * Throws `uncertainty-unknown` when the uncertainty is negative or not finite.
 *
 * @example
 * roundToUncertainty(0.56321, 0.01249) // => { value: '0.563', uncertainty: '0.012', decimals: 3 }
 * roundToUncertainty(1234.5, 0.0997).uncertainty // => '0.10'
 * roundToUncertainty(123456, 3210).value // => '123500'
 * roundToUncertainty(56.12, 4.5, 'plain').value // => '56'
 */
export function roundToUncertainty(
  value: number,
  uncertainty: number,
  digits: 'two' | 'plain' = 'two',
): Rounded {
  if (!Number.isFinite(uncertainty) || uncertainty < 0) {
    throw problem('uncertainty-unknown', { source: 'the result', got: String(uncertainty) });
  }
  if (!Number.isFinite(value)) throw problem('value-not-finite', { what: 'A result', got: String(value) });
  if (uncertainty === 0) {
    const text = String(Number(value.toPrecision(6)));
    return { value: text, uncertainty: '0', decimals: /\.(\d+)$/.exec(text)?.[1]?.length ?? 0 };
  }
  // Two digits by way of the exponent form, so that 0.0997 becomes 0.10 and not 0.100.
  const [mantissa, exponent] = uncertainty.toExponential(1).split('e') as [string, string];
  const shown = digits === 'plain' && !mantissa.startsWith('1') ? 1 : 2;
  const decimals = shown - 1 - Number(exponent);
  return { value: toDecimals(value, decimals), uncertainty: toDecimals(uncertainty, decimals), decimals };
}

/** Fixed decimals, also to tens and hundreds; never "-0". */
function toDecimals(value: number, decimals: number): string {
  if (decimals >= 0) {
    const text = value.toFixed(Math.min(decimals, 100));
    return Number(text) === 0 ? text.replace('-', '') : text;
  }
  const step = 10 ** -decimals;
  // Halves go away from zero, as toFixed has them, so that a value and its negative look alike.
  return String(Math.sign(value) * Math.round(Math.abs(value) / step) * step + 0);
}
