import { roundToUncertainty } from '../../uncertainty/index.js';
import { displayUnit, fromUnit, toUnit, type UnitSystem } from '../../units/index.js';
import type { CurveQuantity } from './types.js';

/** A quantity of a curve as it is shown: value and expanded uncertainty rounded alike, and the unit beside them. */
export interface ShownQuantity {
  /** What it is, for people. */
  readonly label: string;
  /** "2.96"; empty where there is no result. */
  readonly value: string;
  /** "0.23", of the same places. */
  readonly uncertainty: string;
  readonly unit: string;
  /** For a sentence: "3.0", to the digits of the range. */
  readonly plain: string;
  /** "2.7 to 3.2 W/K", in plain digits, with the unit. */
  readonly range: string;
}

const labels: Readonly<Record<string, string>> = {
  heatingRate: 'rise for each kilojoule at the meter (κ/C)',
  lossRate: 'fall in an hour for each degree above the room (UA/C)',
  couplingRate: 'pace at which heater body and load even out',
  startTemperature: 'temperature at the first reading',
  startFlow: 'rise from a body that was warmer than the load at first',
  timeConstant: 'time constant (C/UA)',
  lossOverKappa: 'power at the meter for each degree that is held (UA/κ)',
  finalTemperature: 'temperature that it tends to',
  kappa: 'share that reaches water, vessel and heater body (κ)',
  ua: 'loss to the room for each degree (UA)',
  timeToTarget: 'time to the target',
  lag: 'time by which the load follows the heater',
};

/** Time constants from here on are shown in hours, times from there on in minutes, s. */
const HOURS_FROM_S = 7200;
const MINUTES_FROM_S = 180;

/**
 * A parameter or a result of a curve in everyday units: temperatures in °C or °F, rates for each kilojoule, hour or minute,
 * shares in per cent, times in the unit that suits their length. Empty texts where the data don't give it.
 *
 * @example
 * const result = { value: 9000, expandedUncertainty: 700, interval: [8300, 9700] };
 * const { value, uncertainty, range } = shownQuantity({ name: 'timeConstant', unit: 's', result }, 'si');
 * [value, uncertainty, range] // => ['2.50', '0.19', '2.31 to 2.69 h']
 * shownQuantity({ name: 'ua', unit: 'W/K', result: null }, 'si').value // => ''
 */
export function shownQuantity(quantity: CurveQuantity, units: UnitSystem): ShownQuantity {
  const { result } = quantity;
  const { unit, show, scale } = displayOf(quantity, units);
  const label = labels[quantity.name] ?? quantity.meaning;
  if (result === null) return { label, value: '', uncertainty: '', unit, plain: '', range: '' };
  const half = Math.abs(scale(result.expandedUncertainty));
  const { value, uncertainty } = roundToUncertainty(show(result.value), half);
  const [low, high] = result.interval.map((end) => roundToUncertainty(show(end), half, 'plain').value);
  const blank = unit === '' ? '' : ` ${unit}`;
  const plain = roundToUncertainty(show(result.value), half, 'plain').value;
  return { label, value, uncertainty, unit, plain, range: `${low} to ${high}${blank}` };
}

interface Display {
  readonly unit: string;
  readonly show: (si: number) => number;
  /** Of a difference. */
  readonly scale: (si: number) => number;
}

function displayOf({ name, unit, result }: CurveQuantity, units: UnitSystem): Display {
  const by = (factor: number, shown: string): Display => {
    const times = (si: number) => factor * si;
    return { unit: shown, show: times, scale: times };
  };
  if (unit === 'K') {
    const degrees = displayUnit('temperature', units);
    const difference = displayUnit('temperatureDifference', units);
    return {
      unit: degrees,
      show: (si) => toUnit(si, 'temperature', degrees),
      scale: (si) => toUnit(si, 'temperatureDifference', difference),
    };
  }
  if (unit === 'W/K') {
    const conductance = displayUnit('conductance', units);
    return by(1 / fromUnit(1, 'conductance', conductance), conductance);
  }
  if (unit === 'K/J') return by(1000, 'K/kJ');
  if (unit === 'K/s') return by(60, 'K/min');
  if (unit === '1/s') return name === 'couplingRate' ? by(60, '1/min') : by(3600, '1/h');
  if (unit === '1') return by(100, '%');
  const seconds = Math.abs(result?.value ?? 0);
  if (name === 'timeConstant' && seconds >= HOURS_FROM_S) return by(1 / 3600, 'h');
  return seconds >= MINUTES_FROM_S ? by(1 / 60, 'min') : by(1, 's');
}
