import { problem } from '../errors/index.js';
import { fallsLikeNoCounter } from './fallsLikeNoCounter.js';
import { numberCell } from './numberCell.js';
import { shownName } from './shownNames.js';
import type { Layout } from './sniffLayout.js';
import type { QuantityRole, ReadOptions } from './types.js';
import type { ValueColumn } from './ValueColumn.js';

// Whoever reads 100 K with a thermometer for milk has a thermocouple of type K before him.
const coldestK = 200;
// Above this a power factor is in percent; below, it is a meter that shows 1.01.
const highestFactor = 1.5;
// Power can't exceed voltage times current; a unit that is wrong is so by a thousand.
const mostRatio = 30;

/** A reading in words, and the option that settles on it. */
type Reading = readonly [words: string, options: Readonly<Record<string, string>>];

/**
 * Looks at the first rows for numbers that speak against what the headers say, so that there are two readings: energy
 * that isn't counted up, kelvin that are degrees, a power factor in percent, kilowatts that are watts. What the user
 * states is not doubted.
 */
export function refuseDoubts(
  layout: Layout,
  values: readonly ValueColumn[],
  options: ReadOptions,
  place: { readonly file: string; readonly line: number },
): void {
  const column = (role: QuantityRole) => values.find((one) => one.role === role);
  const doubt = (one: ValueColumn, [first, firstIs]: Reading, [second, secondIs]: Reading, hint: string) => {
    const choices = [
      { words: first, options: firstIs },
      { words: second, options: secondIs },
    ];
    return problem(
      'log-two-readings',
      { what: `The column ${shownName(one)}`, first, second, choices },
      place,
      hint,
    );
  };

  const energy = column('energy');
  if (energy && options.columns?.energy === undefined && fallsLikeNoCounter(numbersOf(layout, energy)))
    throw doubt(
      energy,
      ['a counter, which only rises', { column: `energy=${energy.index + 1}` }],
      ['the energy of each interval, as its falls suggest', { column: `ignored=${energy.index + 1}` }],
      `Say --column energy=... if it is a counter; if not, leave it out with --column ignored=${energy.index + 1}.`,
    );

  const temperature = column('temperature');
  const kelvin = temperature?.unit?.symbol === 'K' && options.units?.temperature === undefined;
  if (temperature && kelvin && largest(numbersOf(layout, temperature)) < coldestK)
    throw doubt(
      temperature,
      ['kelvin, by its unit', { unit: 'temperature=K' }],
      ['degrees from a thermocouple of type K, by its size', { unit: 'temperature=°C' }],
      'Say which with --unit temperature=K or --unit temperature=°C.',
    );

  const factor = column('powerFactor');
  const stated = options.units?.powerFactor !== undefined;
  if (factor && !factor.unit && !stated && largest(numbersOf(layout, factor)) > highestFactor)
    throw doubt(
      factor,
      ['a power factor, by its words', { column: `ignored=${factor.index + 1}` }],
      ['a power factor in percent, by its size', { unit: 'powerFactor=%' }],
      'Say --unit powerFactor=% if it is in percent; if not, leave it out with --column ignored=...',
    );

  const [power, voltage, current] = [column('power'), column('voltage'), column('current')];
  if (!power || !voltage || !current || options.units?.power !== undefined) return;
  const ratio = powerRatio(layout, power, voltage, current);
  const { symbol } = power.unit!;
  if (ratio > mostRatio || ratio < 1 / (20 * mostRatio))
    throw doubt(
      power,
      [`${symbol}, by its unit`, { unit: `power=${symbol}` }],
      [
        `another unit, since it is ${Number(ratio.toPrecision(2))} times ${shownName(voltage)} times ${shownName(current)}`,
        { unit: `power=${symbol === 'W' ? 'kW' : 'W'}` },
      ],
      'Say which with --unit power=W or --unit power=kW, or state the units of voltage and current.',
    );
}

/** Power over voltage times current in the row of the largest current; 1 where nothing can be said. */
function powerRatio(layout: Layout, power: ValueColumn, voltage: ValueColumn, current: ValueColumn): number {
  const [watts, volts, amperes] = [power, voltage, current].map((one) => numbersOf(layout, one)) as [
    number[],
    number[],
    number[],
  ];
  let best = 1;
  let most = 0;
  for (const [row, ampere] of amperes.entries()) {
    const product = volts[row]! * ampere;
    if (!(product > most) || !(watts[row]! > 0)) continue;
    most = product;
    best = watts[row]! / product;
  }
  return best;
}

function numbersOf(layout: Layout, { index, unit }: ValueColumn): number[] {
  return layout.table.sample.map(({ cells }) => {
    const number = numberCell(cells[index] ?? '', layout.decimal);
    const si = number?.unit ?? unit;
    return number ? number.value * (si?.factor ?? 1) + (si?.offset ?? 0) : Number.NaN;
  });
}

/** NaN where there is none. */
function largest(values: readonly number[]): number {
  const known = values.filter(Number.isFinite);
  return known.length > 0 ? Math.max(...known) : Number.NaN;
}
