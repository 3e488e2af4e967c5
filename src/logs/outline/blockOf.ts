import type { Rows } from '../Rows.js';
import { counterStep } from '../counterStep.js';
import type { Block, CounterPart, PowerPart, TemperaturePart } from './Block.js';
import type { Tally } from './Tally.js';

/** The last known readings before a block. */
export interface Carry {
  powerS: number;
  powerW: number;
  counterS: number;
  counterJ: number;
}

// Intervals that differ by less are the same.
const sameS = 1e-9;

// Numbers are declared one by one: taken apart from an array they would be boxed in every turn of the loops below.
// Room for the lengths of the stretches of a block, used again for the next.
let lengths = new Float64Array(1024);

/** Sums up some rows as a block, and moves `carry` on to their end. */
export function blockOf(
  rows: Rows,
  begins: Pick<Block, 'firstRow' | 'at'>,
  carry: Carry,
  tallies: { readonly powers: Tally; readonly intervals: Tally },
  unitJ: number,
): Block {
  const { timesS } = rows;
  return {
    ...begins,
    rows: timesS.length,
    startS: timesS[0]!,
    endS: timesS[timesS.length - 1]!,
    power: rows.powerW ? powerPart(timesS, rows.powerW, carry, tallies) : null,
    counter: rows.energyJ ? counterPart(timesS, rows.energyJ, carry, unitJ) : null,
    temperature: rows.temperatureK ? temperaturePart(timesS, rows.temperatureK) : null,
  };
}

function powerPart(
  timesS: Float64Array,
  powerW: Float64Array,
  carry: Carry,
  tallies: { readonly powers: Tally; readonly intervals: Tally },
): PowerPart {
  const { powers, intervals } = tallies;
  let beforeS = carry.powerS;
  let beforeW = carry.powerW;
  let known = 0;
  let stretches = 0;
  let changes = 0;
  let longestS = 0;
  let longestFromS = Number.NaN;
  let longestFromW = Number.NaN;
  let longestToS = Number.NaN;
  let longestToW = Number.NaN;
  let secondS = 0;
  let lastLength = 0;
  let trapezoidJ = 0;
  let stepJ = 0;
  let doubtJ2 = 0;
  let lengthS = 0;
  let lengthS2 = 0;
  let leastW = Infinity;
  let mostW = -Infinity;
  let firstS = Number.NaN;
  let firstW = Number.NaN;
  if (lengths.length < timesS.length) lengths = new Float64Array(timesS.length);
  for (let i = 0; i < timesS.length; i++) {
    const watts = powerW[i]!;
    if (Number.isNaN(watts)) continue;
    const time = timesS[i]!;
    if (watts < leastW) leastW = watts;
    if (watts > mostW) mostW = watts;
    if (known++ === 0) {
      firstS = time;
      firstW = watts;
    }
    const length = time - beforeS;
    // Not so where there is no reading before.
    if (length > 0) {
      const change = watts - beforeW;
      const doubt = length * change;
      // Equal but for what subtracting leaves behind: one interval, not many.
      if (length - lastLength > sameS || lastLength - length > sameS) lastLength = length;
      lengths[stretches] = lastLength;
      trapezoidJ += ((beforeW + watts) / 2) * length;
      stepJ += watts * length;
      doubtJ2 += doubt * doubt;
      lengthS += length;
      lengthS2 += length * length;
      if (length > longestS) {
        secondS = longestS;
        longestS = length;
        longestFromS = beforeS;
        longestFromW = beforeW;
        longestToS = time;
        longestToW = watts;
      } else if (length > secondS) secondS = length;
      if (change !== 0) changes++;
      stretches++;
    }
    beforeS = time;
    beforeW = watts;
  }
  powers.addAll(powerW, powerW.length);
  intervals.addAll(lengths, stretches);
  const part = { known, beforeS: carry.powerS, beforeW: carry.powerW, firstS, firstW, leastW, mostW };
  carry.powerS = beforeS;
  carry.powerW = beforeW;
  const sums = { trapezoidJ, stepJ, doubtJ2, stretches, lengthS, lengthS2, changes };
  const longest = { longestS, longestFromS, longestFromW, longestToS, longestToW, secondS };
  return { ...part, lastS: beforeS, lastW: beforeW, ...sums, ...longest };
}

function counterPart(timesS: Float64Array, energyJ: Float64Array, carry: Carry, unitJ: number): CounterPart {
  let beforeS = carry.counterS;
  let beforeJ = carry.counterJ;
  let known = 0;
  let countedJ = 0;
  let ticks = 0;
  let firstS = Number.NaN;
  let firstJ = Number.NaN;
  const falling = { wrap: 0, reset: 0, fall: 0 };
  for (let i = 0; i < timesS.length; i++) {
    const joules = energyJ[i]!;
    if (Number.isNaN(joules)) continue;
    if (known++ === 0) {
      firstS = timesS[i]!;
      firstJ = joules;
    }
    if (joules > beforeJ) {
      countedJ += joules - beforeJ;
      ticks++;
    } else if (joules < beforeJ) {
      const step = counterStep(beforeJ, joules, unitJ);
      countedJ += step.addJ;
      if (step.kind !== 'rise') falling[step.kind]++;
    }
    beforeS = timesS[i]!;
    beforeJ = joules;
  }
  const before = { beforeS: carry.counterS, beforeJ: carry.counterJ };
  carry.counterS = beforeS;
  carry.counterJ = beforeJ;
  const { wrap: wraps, reset: resets, fall: falls } = falling;
  return {
    known,
    ...before,
    firstS,
    firstJ,
    lastS: beforeS,
    lastJ: beforeJ,
    countedJ,
    wraps,
    resets,
    falls,
    ticks,
  };
}

function temperaturePart(timesS: Float64Array, temperatureK: Float64Array): TemperaturePart {
  const part: TemperaturePart = {
    known: 0,
    firstS: Number.NaN,
    firstK: Number.NaN,
    lastS: Number.NaN,
    lastK: Number.NaN,
    leastK: Infinity,
    mostK: -Infinity,
    sumK: 0,
  };
  for (let i = 0; i < timesS.length; i++) {
    const kelvin = temperatureK[i]!;
    if (Number.isNaN(kelvin)) continue;
    if (part.known++ === 0) [part.firstS, part.firstK] = [timesS[i]!, kelvin];
    [part.lastS, part.lastK] = [timesS[i]!, kelvin];
    part.leastK = Math.min(part.leastK, kelvin);
    part.mostK = Math.max(part.mostK, kelvin);
    part.sumK += kelvin;
  }
  return part;
}
