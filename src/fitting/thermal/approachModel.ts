import { approachProblem } from './approachProblem.js';
import { solveNormal } from './normalEquations.js';
import type { Prepared } from './Prepared.js';
import type { Derived, ThermalModel } from './ThermalModel.js';

/** T = T∞ − (T∞ − T₀)·exp(−t/τ). */
export const approachModel: ThermalModel = {
  name: 'approach',
  parameters: [
    { name: 'finalTemperature', meaning: 'T∞, temperature that the curve tends to', unit: 'K' },
    { name: 'startTemperature', meaning: 'T₀, temperature at the first reading used', unit: 'K' },
    { name: 'timeConstant', meaning: 'τ', unit: 's' },
  ],
  needs: { power: false, ambient: false, parameters: 3 },
  linear: null,
  problem: approachProblem,
  start,
  lower: (data) => [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, spanS(data) / 1000],
  upper: (data) => [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, spanS(data) * 1000],
  derived: ([finalK, startK, tau], _data, { targetK }) =>
    targetK === undefined ? [] : [timeToTarget(finalK!, startK!, tau!, targetK, 'first')],
};

const spanS = (data: Prepared) => data.used.toS - data.used.fromS;

/** T = T₀ + (T∞ − Tᵣ)/τ·t − ∫(T − Tᵣ)dt/τ is linear in T₀ and what stands before the integrals. */
function start({ timesS, temperaturesK, blockOf, share, observedK, used }: Prepared): number[] {
  const n = share.length;
  const originS = timesS[0]!;
  const time = new Float64Array(n);
  const area = new Float64Array(n);
  let integral = 0;
  timesS.forEach((t, i) => {
    if (i > 0)
      integral +=
        (t - timesS[i - 1]!) * ((temperaturesK[i]! + temperaturesK[i - 1]!) / 2 - temperaturesK[0]!);
    const k = blockOf[i]!;
    if (k < 0) return;
    time[k]! += share[k]! * (t - originS);
    area[k]! -= share[k]! * integral;
  });
  const rise = observedK.map((value) => value - temperaturesK[0]!);
  const solved = solveNormal([new Float64Array(n).fill(1), time, area], rise);
  const span = used.toS - used.fromS;
  const straight = [rise[n - 1]! - rise[0]!, 1 / (2 * span)];
  const [first, slope, rate] = solved ?? [rise[0]!, straight[0]! / span, 0];
  if (rate! > 1 / (100 * span))
    return [temperaturesK[0]! + slope! / rate!, temperaturesK[0]! + first!, 1 / rate!];
  return [observedK[0]! + 2 * straight[0]!, observedK[0]!, 1 / straight[1]!];
}

/** Time from T₀ to a target on T = T∞ − (T∞ − T₀)·exp(−t/τ), derivatives by T∞, T₀, τ. */
export function timeToTarget(
  finalK: number,
  startK: number,
  tau: number,
  targetK: number,
  from: string,
): Derived {
  const ratio = (finalK - startK) / (finalK - targetK);
  const reached = ratio >= 1;
  return {
    name: 'timeToTarget',
    meaning: `from the ${from} temperature to the target`,
    unit: 's',
    value: reached ? tau * Math.log(ratio) : null,
    gradient: [
      tau * (1 / (finalK - startK) - 1 / (finalK - targetK)),
      -tau / (finalK - startK),
      Math.log(Math.abs(ratio)),
    ],
    ...(reached ? {} : { reason: 'the curve does not come by that temperature after the first reading' }),
  };
}
