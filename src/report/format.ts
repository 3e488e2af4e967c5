import { roundToUncertainty } from '../uncertainty/index.js';
import { displayUnit, formatQuantity, type QuantityKind, toUnit, type UnitSystem } from '../units/index.js';

/** Half the width of an interval: what stands behind ± where the interval is as good as symmetric. */
export function halfWidth(interval: readonly [number, number]): number {
  return (interval[1] - interval[0]) / 2;
}

/** Typography: a minus sign instead of a hyphen, a blank that does not break before the unit. */
function typeset(text: string): string {
  return text.replace(/-(?=\d)/g, '−').replace(/ (?=[^\d\s±–−])/g, '\u00a0');
}

/** "43.1 % ± 1.6 %": a ratio and its expanded uncertainty, both times 100, rounded to the uncertainty. */
export function percentResult(value: number, expanded: number): string {
  const rounded = roundToUncertainty(value * 100, expanded * 100);
  return typeset(`${rounded.value} % ± ${rounded.uncertainty} %`);
}

/** "41.5 to 44.7 %": an interval of ratios, to the place of two digits of its half-width. */
export function percentInterval(interval: readonly [number, number]): string {
  const half = halfWidth(interval) * 100;
  const [low, high] = interval.map((end) => roundToUncertainty(end * 100, half).value);
  return typeset(`${low} to ${high} %`);
}

/**
 * The same for a sentence: "41 to 45 %", to one digit of the half-width, but to two where that digit is a 1, so that
 * rounding moves no end by more than a quarter of the half-width.
 */
export function percentIntervalInWords(interval: readonly [number, number]): string {
  const half = halfWidth(interval) * 100;
  const [low, high] = interval.map((end) => roundToUncertainty(end * 100, half, 'plain').value);
  return typeset(`${low} to ${high} %`);
}

/** "62 %": a share of 0 to 1; small ones are named as small and never shown as zero. */
export function percentShare(share: number): string {
  if (share > 0 && share < 0.0005) return 'under\u00a00.1\u00a0%';
  return typeset(`${(share * 100).toFixed(share < 0.1 ? 1 : 0)} %`);
}

/** Two significant digits, as an uncertainty is shown. */
export function twoDigits(value: number): string {
  return typeset(roundToUncertainty(0, value).uncertainty);
}

/** A result with its expanded uncertainty in a unit that stands beside it: "0.3581 ± 0.0042". */
export function resultIn(value: number, expanded: number, kind: QuantityKind, unit: string): string {
  // A difference of temperatures has the scale of its unit, not its zero.
  const scale = kind === 'temperature' ? 'temperatureDifference' : kind;
  const rounded = roundToUncertainty(toUnit(value, kind, unit), toUnit(expanded, scale, unit));
  return typeset(`${rounded.value} ± ${rounded.uncertainty}`);
}

/** A condition of a run, which is no result: plain decimals in the unit of the page. */
export function plainQuantity(si: number, kind: QuantityKind, units: UnitSystem, decimals: number): string {
  return typeset(formatQuantity(si, kind, displayUnit(kind, units), decimals));
}

/** Every digit of a value in a unit, as it stands in the records. */
export function exactQuantity(si: number, kind: QuantityKind, unit: string): string {
  return typeset(formatQuantity(si, kind, unit));
}
