import { problem } from '../../errors/index.js';

/** The largest must exceed the smallest by this part of itself (common practice, no source). */
const leastSpread = 0.2;

/** Throws unless there are two or more heat capacities far enough from each other. */
export function checkFills(capacities: readonly number[]): void {
  const needed = 'Two or more fills, such as a third and full,';
  if (capacities.length < 2)
    throw problem('fills-too-alike', {
      got: capacities.length === 1 ? 'there is one fill' : 'there are no fills',
      needed,
    });
  const bad = capacities.findIndex((value) => !(value > 0));
  if (bad >= 0)
    throw problem('fit-input-bad', {
      what: `The heat capacity of fill ${bad + 1}`,
      expected: 'above 0 J/K',
      got: `${capacities[bad]} J/K`,
    });
  const least = Math.min(...capacities);
  const most = Math.max(...capacities);
  if (!(most - least >= leastSpread * most))
    throw problem('fills-too-alike', {
      got: `their heat capacities go from ${Math.round(least)} to ${Math.round(most)} J/K`,
      needed,
    });
}
