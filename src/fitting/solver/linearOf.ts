import { problem } from '../../errors/index.js';

/** Indices of the parameters named as linear, in rising order. */
export function linearOf(
  names: readonly string[],
  given: readonly (string | number)[],
  lower: Float64Array,
  upper: Float64Array,
): number[] {
  const indices = given.map((each) => {
    const index = typeof each === 'number' ? each : names.indexOf(each);
    if (names[index] === undefined)
      throw problem('fit-input-bad', {
        what: 'Each linear parameter',
        expected: `one of ${names.join(', ')}, or its number counted from 0`,
        got: String(each),
      });
    return index;
  });
  for (const j of indices)
    if (lower[j]! > Number.NEGATIVE_INFINITY || upper[j]! < Number.POSITIVE_INFINITY)
      throw problem('fit-input-bad', {
        what: `The linear parameter ${names[j]}`,
        expected: 'without bounds',
        got: `${lower[j]} to ${upper[j]}`,
      });
  return [...new Set(indices)].sort((a, b) => a - b);
}
