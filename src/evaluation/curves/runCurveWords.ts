import type { UnitSystem } from '../../units/index.js';
import { shownQuantity } from './shownQuantity.js';
import type { CurveFit, CurvePart, CurveQuantity } from './types.js';

/** What one part of a run says in plain words, a sentence each. */
export interface PartWords {
  /** "Warm-up, 27 min from switch-on to the weighing". */
  readonly heading: string;
  readonly sentences: readonly string[];
}

/** A loss is told where it is larger than its half-width at 95 %. */
const TOLD = 1;

/**
 * What the best curve of a part says, how sure, whether it fits and what it takes for granted, in sentences for somebody
 * at a bench.
 *
 * @example
 * const result = { value: 2.5, expandedUncertainty: 0.2, interval: [2.3, 2.7] };
 * const ua = { name: 'ua', meaning: 'UA', unit: 'W/K', result, reason: null, conditionalOn: null };
 * const fit = { verdict: { sentence: 'The curve fits; what is left is noise of 0.02 K.', fits: true } };
 * const fits = [{ model: 'coolDown', fit, startS: 0, parameters: [], quantities: [ua] }];
 * const part = { name: 'cool-down', stretch: { fromS: 0, toS: 3600 }, evidence: 'as stated', fits, comparison: null };
 * runCurveWords(part, 'si').sentences[0] // => 'The load loses 2.5 W for each kelvin above the room (2.3 to 2.7 W/K).'
 */
export function runCurveWords(part: CurvePart, units: UnitSystem): PartWords {
  const best = part.fits[0] as CurveFit;
  const { name, stretch, evidence, comparison } = part;
  const minutes = Math.round((stretch.toS - stretch.fromS) / 60);
  const heading = `${name === 'warm-up' ? 'Warm-up' : 'Cool-down'}, ${minutes} min, ${evidence}`;
  const hint = best.fit.verdict.fits
    ? []
    : ['This curve does not fit: take its numbers for no more than a hint.'];
  const found = (quantity: string) => best.quantities.find((each) => each.name === quantity);
  const condition = found('kappa')?.conditionalOn ?? found('ua')?.conditionalOn;
  return {
    heading,
    sentences: [
      ...hint,
      ...shareWords(found('kappa'), units),
      ...lossWords(found('ua'), units),
      ...timeWords(best, units),
      ...targetWords(best, units),
      best.fit.verdict.sentence,
      ...(comparison ? [comparison.sentence] : []),
      ...(condition ? [conditionWords(condition)] : []),
    ].filter((sentence, i, all) => all.indexOf(sentence) === i),
  };
}

function shareWords(kappa: CurveQuantity | undefined, units: UnitSystem): string[] {
  if (!kappa?.result) return [];
  const { plain, range } = shownQuantity(kappa, units);
  return [
    `${plain} % of the metered power reaches water, vessel and heater body before any loss (${range}).`,
  ];
}

function lossWords(ua: CurveQuantity | undefined, units: UnitSystem): string[] {
  if (!ua?.result) return [];
  const { value, uncertainty, unit, plain, range } = shownQuantity(ua, units);
  if (ua.result.value <= TOLD * ua.result.expandedUncertainty)
    return [`The loss to the room can’t be told from this stretch (${value} ± ${uncertainty} ${unit}).`];
  const degree = unit === 'W/K' ? 'W for each kelvin' : `${unit.replace('/(h °F)', '')} an hour for each °F`;
  return [`The load loses ${plain} ${degree} above the room (${range}).`];
}

function timeWords({ model, quantities, parameters }: CurveFit, units: UnitSystem): string[] {
  const all = [...parameters, ...quantities];
  const words: string[] = [];
  const tau = all.find(({ name }) => name === 'timeConstant');
  if (tau?.result) {
    const { plain, unit, range } = shownQuantity(tau, units);
    const what = model === 'approach' ? 'It comes nearer to its final temperature' : 'Left alone it cools';
    words.push(`${what} with a time constant of ${plain} ${unit} (${range}).`);
  }
  const end = model === 'approach' ? all.find(({ name }) => name === 'finalTemperature') : undefined;
  // Above that it is a number of the model only: water boils before.
  if (end?.result && end.result.value <= 373.15) {
    const { plain, unit, range } = shownQuantity(end, units);
    words.push(`It tends to ${plain} ${unit} (${range}).`);
  }
  const lag = all.find(({ name }) => name === 'lag');
  if (lag?.result) {
    const { plain, unit, range } = shownQuantity(lag, units);
    words.push(`The load follows the heater by ${plain} ${unit} (${range}).`);
  }
  return words;
}

function targetWords({ quantities, model }: CurveFit, units: UnitSystem): string[] {
  const time = quantities.find(({ name }) => name === 'timeToTarget');
  if (!time) return [];
  if (!time.result) return [`When the target is reached can’t be said: ${time.reason}.`];
  const { plain, unit, range } = shownQuantity(time, units);
  const from = model === 'coolDown' ? 'after the beginning of this stretch' : 'after switch-on';
  return [`The target is reached ${plain} ${unit} ${from} (${range}).`];
}

function conditionWords(condition: string): string {
  return `From one fill these hold only for ${condition}.`;
}
