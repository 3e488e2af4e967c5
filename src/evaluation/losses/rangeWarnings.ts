import { formatQuantity } from '../../units/index.js';
import type { HeatingRequest, TestedRange } from './types.js';

/** How far a value may lie beyond what was tested before it is said: of itself, or in kelvin. */
const BEYOND = 0.05;
const BEYOND_K = 5;

/** A sentence for each condition of a heating that was never tested. */
export function rangeWarnings(request: HeatingRequest, ambientK: number, range: TestedRange): string[] {
  const warnings: string[] = [];
  const check = (
    what: string,
    value: number,
    [low, high]: readonly [number, number],
    beyond: [number, number],
    text: (value: number) => string,
  ) => {
    if (value >= low - beyond[0] && value <= high + beyond[1]) return;
    const [from, to] = [text(low), text(high)];
    const tested = from === to ? from : `${from} to ${to}`;
    warnings.push(
      `${what} of ${text(value)} is outside of what was tested (${tested}): nothing checks it there.`,
    );
  };
  const kg = (value: number) => formatQuantity(value, 'mass', 'kg', 1);
  const watts = (value: number) => formatQuantity(value, 'power', 'W', 0);
  const celsius = (value: number) => formatQuantity(value, 'temperature', '°C', 0);
  const part = ([low, high]: readonly [number, number]): [number, number] => [BEYOND * low, BEYOND * high];
  check('A mass', request.massKg, range.waterKg, part(range.waterKg), kg);
  check('A power', request.powerW, range.powerW, part(range.powerW), watts);
  // A start above the lowest and an end below the highest lie within the courses that were tested.
  const course = [range.startK[0], range.endK[1]] as const;
  check('A start', request.startK, course, [BEYOND_K, BEYOND_K], celsius);
  check('An end', request.endK, course, [BEYOND_K, BEYOND_K], celsius);
  if (range.ambientK) check('A room', ambientK, range.ambientK, [BEYOND_K, BEYOND_K], celsius);
  return warnings;
}
