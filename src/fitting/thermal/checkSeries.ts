import { problem } from '../../errors/index.js';

/**
 * Throws unless times and values are equally many, finite, and the times rise strictly. `what`: "temperature". Values
 * come back as an array of doubles.
 */
export function checkSeries(
  what: string,
  timesS: ArrayLike<number>,
  values: ArrayLike<number>,
  lowest: number,
  unit: string,
): { readonly timesS: Float64Array; readonly values: Float64Array } {
  if (timesS.length !== values.length)
    throw problem('lengths-differ', {
      first: `The times of the ${what}`,
      firstLength: timesS.length,
      second: 'its readings',
      secondLength: values.length,
    });
  if (timesS.length === 0)
    throw problem('fit-input-bad', {
      what: `The series of the ${what}`,
      expected: 'one reading or more',
      got: 'none',
    });
  const times = timesS instanceof Float64Array ? timesS : new Float64Array(timesS);
  const doubles = values instanceof Float64Array ? values : new Float64Array(values);
  const bad = firstBad(times, doubles, lowest);
  if (bad >= 0) refuse(what, bad, times, doubles, lowest, unit);
  return { timesS: times, values: doubles };
}

/** Index of the first reading whose time doesn't rise, or whose value is not finite or too low; −1 for none. */
function firstBad(timesS: Float64Array, values: Float64Array, lowest: number): number {
  let before = -Number.MAX_VALUE;
  for (let i = 0; i < timesS.length; i += 1) {
    const t = timesS[i]!;
    const value = values[i]!;
    if (!(t > before && t <= Number.MAX_VALUE && value >= lowest && value <= Number.MAX_VALUE)) return i;
    before = t;
  }
  return -1;
}

/** Says what is wrong with a reading. */
function refuse(
  what: string,
  i: number,
  timesS: Float64Array,
  values: Float64Array,
  lowest: number,
  unit: string,
): never {
  const [t, value] = [timesS[i]!, values[i]!];
  if (!Number.isFinite(t))
    throw problem('value-not-finite', {
      what: `The time of reading ${i + 1} of the ${what}`,
      got: String(t),
    });
  if (i > 0 && !(t > timesS[i - 1]!))
    throw problem(
      'fit-input-bad',
      {
        what: `The time of reading ${i + 1} of the ${what}`,
        expected: `later than ${timesS[i - 1]} s, the one before`,
        got: `${t} s`,
      },
      {},
      t === timesS[i - 1]
        ? 'Leave one of two readings with the same time out.'
        : 'Sort the readings by time.',
    );
  if (!Number.isFinite(value))
    throw problem(
      'value-not-finite',
      { what: `Reading ${i + 1} of the ${what}, at ${t} s,`, got: String(value) },
      {},
      'A reading that is unknown is left out together with its time.',
    );
  throw problem('fit-input-bad', {
    what: `Reading ${i + 1} of the ${what}, at ${t} s,`,
    expected: `at least ${lowest} ${unit}${unit === 'K' ? ' (kelvin, not °C)' : ''}`,
    got: `${value} ${unit}`,
  });
}
