import type { Validation } from './Validation.js';

const short = (value: number): string => String(Number(value.toPrecision(3)));

/** The verdict of `validate` in words. */
export function verdictText(of: Omit<Validation, 'sentence'>): string {
  const { verdict, digits, tolerance, dLow, dHigh, endErrors, monteCarlo } = of;
  const at = `at ${digits} ${digits === 1 ? 'digit' : 'digits'}`;
  const percent = `${Number((100 * monteCarlo.coverage).toPrecision(6))} % interval`;
  const trials = `${monteCarlo.trials} trials`;
  const apart = `the ends of its ${percent} lie ${short(dLow)} and ${short(dHigh)} from those of ${trials}`;
  const sentences = {
    validated: `First order is validated ${at}: ${apart}, within ${short(tolerance)}.`,
    'not validated': `First order is not validated ${at}: ${apart}, and ${short(tolerance)} is allowed. ${whichToUse(of)}`,
    undecided: `Whether first order holds ${at} is undecided: ${apart}, whose own standard errors are ${short(endErrors[0])} and ${short(endErrors[1])}; twice these must be below ${short(tolerance / 5)}. More trials would decide.`,
  };
  return `${sentences[verdict]}${blindText(of.blindTo)}`;
}

function whichToUse({ firstOrder, monteCarlo }: Omit<Validation, 'sentence'>): string {
  const [low, high] = firstOrder.interval;
  return low <= monteCarlo.symmetric[0] && high >= monteCarlo.symmetric[1]
    ? 'It is the wider of the two: safe, but not sharp.'
    : 'The interval from the trials is the one to use.';
}

function blindText(names: readonly string[]): string {
  if (names.length === 0) return '';
  const list = names.length === 1 ? names[0] : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
  return ` First order is blind to ${list}: at the estimate the slope is zero or nearly so, as in a product of zeros or the cosine of zero, yet the result moves with it.`;
}
