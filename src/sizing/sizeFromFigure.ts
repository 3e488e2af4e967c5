import { type Figure, evaluateFigure } from '../evaluation/index.js';
import { formatQuantity } from '../units/index.js';
import { type CellCount, type CellSupply, cellCount } from './cellCount.js';
import { type Load, type SocketEnergy, socketEnergy } from './socketEnergy.js';

export interface Sizing extends SocketEnergy {
  readonly cells: CellCount | null;
  readonly warnings: readonly string[];
  readonly cautions: readonly string[];
}

/** What may hurt somebody who builds the supply. */
export const supplyCautions: readonly string[] = [
  'Battery packs: fuse every string, cover every terminal; series voltage can kill, a short circuit burns.',
  'Same type, age and charge only; never reversed or mixed. Leaking, swollen or hot cells are taken out of use.',
  'Keep within the cell maker’s limits of current and temperature; charge only with a charger made for them; ventilate.',
  'Food: follow the local food-safety code and check with a probe.',
  'Local codes and licensed practice come first.',
];

/** How far mass and rise of a job may lie from those of the test before the answer says so. */
const MASS_RANGE = 0.25;
const RISE_RANGE = 0.25;
const TEMPERATURE_RANGE_K = 5;

/**
 * Sizes a supply from a figure: energy at the socket with its interval, and the count of cells where a cell is stated
 * (`supply` null: none). What lies outside the tested range comes as warnings. Throws what `socketEnergy` and `cellCount` do.
 *
 * @example
 * const conditions = { waterKg: 6, startK: 285.15, endK: 324.15, riseK: 39 };
 * const figure = {
 *   definition: 'water', efficiency: { value: 0.7 }, prediction: { interval: [0.66, 0.74] }, spread: { basis: 'seen' },
 *   runs: [{ conditions }],
 * };
 * const load = { massKg: 6, startK: 285.15, endK: 324.15, specificHeat: 4000 };
 * const supply = { usableJ: 36000, converterEfficiency: 0.9, reserve: 0.2 };
 * sizeFromFigure(figure, load, supply).cells.middle // => 50
 */
export function sizeFromFigure(figure: Figure, load: Load, supply: CellSupply | null): Sizing {
  // The load is what "water" counts: under a wider definition vessel and steam would be taken for load.
  const ofLoad = figure.definition === 'water' ? figure : underWater(figure);
  const energy = socketEnergy(load, {
    value: ofLoad.efficiency.value,
    prediction: ofLoad.prediction.interval,
  });
  return {
    ...energy,
    cells: supply === null ? null : cellCount(energy.energyJ, supply),
    warnings: warningsOf(figure, load),
    cautions: supplyCautions,
  };
}

/** The figure of the same runs under the definition "water", which every run has. */
function underWater(figure: Figure): Figure {
  const relative = figure.spread.standardDeviation / figure.efficiency.value;
  const { words } = figure.spread;
  return evaluateFigure(figure.runs, 'water', { relative, words }, figure.efficiency.coverage) as Figure;
}

function warningsOf(figure: Figure, load: Load): string[] {
  const warnings = ['The figure is not signed.'];
  if (figure.spread.basis === 'assumed') {
    warnings.push(
      `It rests on ${figure.mark ?? 'few runs'}; the scatter from run to run is ${figure.spread.words}. No chance of running short can be stated.`,
    );
  }
  const conditions = figure.runs.map((run) => run.conditions);
  const masses = conditions.map((each) => each.waterKg);
  const starts = conditions.map((each) => each.startK);
  const ends = conditions.map((each) => each.endK);
  const kg = (value: number) => formatQuantity(value, 'mass', 'kg', 1);
  const celsius = (value: number) => formatQuantity(value, 'temperature', '°C', 0);
  const [least, most] = [Math.min(...masses), Math.max(...masses)];
  if (load.massKg < least * (1 - MASS_RANGE) || load.massKg > most * (1 + MASS_RANGE)) {
    warnings.push(
      `The heater was tested with ${kg(least)} to ${kg(most)}, the job has ${kg(load.massKg)}: outside the tested range the loss to the room is another one, and the interval does not cover that.`,
    );
  }
  if (
    load.startK < Math.min(...starts) - TEMPERATURE_RANGE_K ||
    load.endK > Math.max(...ends) + TEMPERATURE_RANGE_K
  ) {
    warnings.push(
      `It was tested from ${celsius(Math.min(...starts))} to ${celsius(Math.max(...ends))}, the job runs from ${celsius(load.startK)} to ${celsius(load.endK)}: hotter loads lose more, and the interval does not cover that.`,
    );
  }
  const leastRise = Math.min(...conditions.map((each) => each.riseK));
  const riseK = load.endK - load.startK;
  if (riseK < leastRise * (1 - RISE_RANGE)) {
    const kelvin = (value: number) => formatQuantity(value, 'temperatureDifference', 'K', 0);
    warnings.push(
      `It was tested with a rise of ${kelvin(leastRise)} or more, the job has ${kelvin(riseK)}: warming the heater itself takes a larger share of a small rise, and the interval does not cover that.`,
    );
  }
  return warnings;
}
