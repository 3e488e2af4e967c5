import { counterEvidence } from './counterEvidence.js';
import type { Evidence } from './Evidence.js';
import { median } from './median.js';
import type { PlainRows } from './plainRows.js';

// With fewer than five intervals none of them is the usual one.
const fewestRows = 6;
// Nothing on a wall socket draws more.
const mostW = 50_000;
const coldestK = 213.15;
const hottestK = 673.15;

/**
 * What in the rows of an export speaks against it, found by rules of this file's own: times that go back, repeat, jump or
 * leave rows out; a counter that falls or contradicts the power; powers, power factors and temperatures that cannot be.
 */
export function evidenceIn(rows: PlainRows): Evidence[] {
  if (rows.timesS.length < fewestRows) return [];
  return [...timeEvidence(rows), ...counterEvidence(rows), ...powerEvidence(rows), ...rangeEvidence(rows)];
}

function timeEvidence({ timesS, powerW, energyJ }: PlainRows): Evidence[] {
  const found: Evidence[] = [];
  const falling = timesS.every((time, i) => i === 0 || time < timesS[i - 1]!);
  const steps = timesS.slice(1).map((time, i) => (falling ? -1 : 1) * (time - timesS[i]!));
  const usual = median(steps.filter((step) => step > 0));
  if (steps.some((step) => step < 0)) found.push('time goes back');
  if (steps.some((step) => step === 0)) found.push('time repeats');
  const main = powerW ?? energyJ;
  const known = timesS.filter((_, i) => !main || !Number.isNaN(main[i]!));
  const gaps = known.slice(1).map((time, i) => Math.abs(time - known[i]!));
  if (gaps.some((gap) => gap > 10 * usual)) found.push('gap');
  const regular = steps.filter((step) => Math.abs(step - usual) < 1e-3 * usual).length;
  const implied = Math.round(steps.reduce((sum, step) => sum + step, 0) / usual) + 1;
  if (regular > 0.9 * steps.length && known.length < implied) found.push('rows missing');
  return found;
}

function powerEvidence({ timesS, powerW, energyJ }: PlainRows): Evidence[] {
  const steps = energyJ?.slice(1).map((joules, i) => joules - energyJ[i]!) ?? [];
  const finest = Math.min(...steps.filter((step) => step > 0));
  // A few steps of a counter in one interval may be the rounding of a small power.
  const counted = steps.map((step, i) => (step > 5 * finest ? step / (timesS[i + 1]! - timesS[i]!) : 0));
  const watts = (powerW ?? counted).filter((value) => Number.isFinite(value));
  const found: Evidence[] = [];
  for (let i = 1; i + 1 < watts.length; i++) {
    const beside = Math.max(watts[i - 1]!, watts[i + 1]!, 0);
    if (watts[i]! > 3 * beside + 10 && !found.includes('spike')) found.push('spike');
  }
  if (watts.some((value) => value < -10)) found.push('power below zero');
  if (watts.some((value) => value > mostW)) found.push('power beyond any socket');
  return found;
}

function rangeEvidence({ powerW, voltageV, currentA, powerFactor, temperatureK }: PlainRows): Evidence[] {
  const found: Evidence[] = [];
  if (powerFactor?.some((factor) => Math.abs(factor) > 1.01)) found.push('power factor above 1');
  if (temperatureK?.some((kelvin) => kelvin < coldestK || kelvin > hottestK))
    found.push('temperature out of range');
  if (!powerW || !voltageV || !currentA) return found;
  const on = median(powerW.filter((watts) => watts > 10));
  const off = powerW.filter((watts, i) => {
    // Around a switching volts, amps and watts may belong to different moments.
    const steady = [powerW[i - 1], powerW[i + 1]].every((beside) => Math.abs(beside! - watts) < 0.2 * on);
    const product = voltageV[i]! * currentA[i]! * (powerFactor?.[i] ?? 1);
    return (
      steady &&
      Math.max(watts, product) > on / 2 &&
      Math.abs(watts - product) > 0.25 * Math.max(watts, product)
    );
  });
  if (off.length > 0) found.push('power against volts and amps');
  return found;
}
