import type { Quantity, SourceBook } from '../../uncertainty/index.js';
import type { Heater } from '../../workbook/index.js';
import { LOSS_SPREAD } from './coolDownFigure.js';
import { pooledValue } from './methodValue.js';
import type { MethodFigure, MethodRun } from './types.js';
import { halfOf, runsWords, valueWords } from './valueWords.js';

const kWh = 3.6e6;
/** Holds farther apart than this are not one: the loss for each kelvin grows with the difference. */
const SAME_EXCESS_K = 5;

/** Holds of one heater and setting, lid alike, together. */
export function holdFigure(book: SourceBook, heater: Heater, runs: readonly MethodRun[]): MethodFigure {
  const [first] = runs as [MethodRun];
  const { setting } = first.run;
  const lid = (first.facts.lid ?? null) as string | null;
  const mean = (fact: string) =>
    runs.reduce((sum, run) => sum + (run.facts[fact] as number), 0) / runs.length;
  const value = (name: string, meaning: string, unit: string) =>
    pooledValue(
      { name, meaning, unit },
      runs.map((run) => run.quantities[name] as Quantity),
      { id: `heater:${heater.id}:${setting}:hold:${lid}:${name}`, relative: LOSS_SPREAD, book },
    );
  const stated = first.facts.statedDifferenceK as number;
  const power = value('heldPower', 'power at the meter that holds the load', 'W');
  const loss = value('lossPerKelvin', 'UA/κ, power at the meter for each kelvin held above the room', 'W/K');
  const hour = value('energyPerHour', 'standing loss in an hour', 'J');
  const day = value('energyPerDay', `standing loss in 24 h at ${stated} K above the room`, 'J');
  const celsius = (kelvin: number) => `${(kelvin - 273.15).toFixed(1)} °C`;
  const where = `${celsius(mean('heldK'))}${lid === null ? '' : ` with the lid ${lid}`}, room ${celsius(mean('ambientK'))}`;
  const apart = runs.map((run) => run.facts.excessK as number);
  return {
    method: 'hold',
    heater,
    setting,
    lid,
    protocol: first.protocol,
    runs,
    values: [power, loss, hour, day],
    covariance: null,
    agreement: null,
    lines: [
      `Holding ${where}: ${valueWords(power.value, halfOf(power), 'W')} at the meter, ${valueWords(loss.value, halfOf(loss), 'W/K')} (${runsWords(runs.length)})`,
      `Standing loss: ${valueWords(hour.value, halfOf(hour), 'Wh', kWh / 1000)} in an hour; ${valueWords(day.value, halfOf(day), 'kWh', kWh)} in 24 h at ${stated} K above the room`,
    ],
    lacks: null,
    warnings:
      Math.max(...apart) - Math.min(...apart) > SAME_EXCESS_K
        ? [
            'The holds lie more than 5 K apart above the room; loss for each kelvin grows with the difference.',
          ]
        : [],
  };
}
