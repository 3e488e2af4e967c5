import { HeatledgerError } from '../../errors/index.js';
import { type Figure, type HeatingPrediction, predictFigure, rangeWords } from '../../evaluation/index.js';
import type { Propagated } from '../../uncertainty/index.js';
import { roundToUncertainty } from '../../uncertainty/index.js';
import { displayUnit, formatQuantity, type QuantityKind, type UnitSystem } from '../../units/index.js';
import { type AskedHeating, forFigure } from './heatingRequest.js';

export interface Predicted {
  readonly data: unknown;
  /** The answer first, then the small print where it is asked for. */
  readonly lines: readonly string[];
  readonly error: HeatledgerError | null;
}

/** What a planned heating takes with a figure, in words and as data; an error where the figure can't tell. */
export function predictionFor(
  figure: Figure,
  asked: AskedHeating,
  { units, detail }: { readonly units: UnitSystem; readonly detail: boolean },
): Predicted {
  const request = forFigure(asked, figure);
  try {
    const found = predictFigure(figure, request);
    return { data: dataOf(request, found), lines: linesOf(asked, found, units, detail), error: null };
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    return { data: { error: error.toJSON() }, lines: [error.message], error };
  }
}

function dataOf(request: object, found: HeatingPrediction): unknown {
  const numbers = ({ value, standardUncertainty, interval }: Propagated) => ({
    value,
    standardUncertainty,
    interval,
  });
  return {
    request,
    timeS: numbers(found.timeS),
    energyJ: numbers(found.energyJ),
    efficiency: numbers(found.efficiency),
    assumptions: found.assumptions,
    warnings: found.warnings,
  };
}

function linesOf(
  asked: AskedHeating,
  { timeS, energyJ, efficiency, assumptions, warnings }: HeatingPrediction,
  units: UnitSystem,
  detail: boolean,
): string[] {
  const shown = (si: number, kind: QuantityKind) =>
    formatQuantity(si, kind, displayUnit(kind, units), 1).replace(/\.0(?= |$)/, '');
  const mass = shown(asked.massKg, 'mass');
  const start = shown(asked.startK, 'temperature').replace(/ .*/, '');
  const end = shown(asked.endK, 'temperature');
  const minutes = (seconds: number, half: number) =>
    roundToUncertainty(seconds / 60, half / 60, 'plain').value;
  const kWh = (joules: number) =>
    roundToUncertainty(joules / 3.6e6, energyJ.expandedUncertainty / 3.6e6, 'plain').value;
  const [low, high] = energyJ.interval;
  return [
    `${mass} from ${start} to ${end} would take about ${minutes(timeS.value, timeS.expandedUncertainty)} min and ${kWh(energyJ.value)} kWh (${kWh(low)} to ${kWh(high)}).`,
    ...(detail
      ? [
          `time ${timeS.interval.map((end_) => minutes(end_, timeS.expandedUncertainty)).join(' to ')} min; into the water ${rangeWords(efficiency.interval)}`,
          `taken for granted: ${assumptions.join('; ')}`,
          ...energyJ.budget
            .filter(({ share }) => share >= 0.05)
            .map(({ source, share }) => `${(100 * share).toFixed(0)} % of the doubt: ${source.name}`),
        ]
      : []),
    ...warnings.map((warning) => `Note: ${warning}`),
  ];
}
