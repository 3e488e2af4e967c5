import { solveNormal } from './normalEquations.js';
import type { Prepared } from './Prepared.js';

/** First guesses, from integrals of the readings. */
export interface StartRates {
  readonly heatingRate: number;
  readonly lossRate: number;
  readonly startK: number;
}

/**
 * First guesses of κ/C, UA/C and T₀ without any iteration: T = T₀ + κ/C·∫P dt − UA/C·∫(T − Ta) dt is linear in them
 * when the integrals are taken over the readings themselves. Without power the first is 0.
 */
export function startRates(data: Prepared, withPower: boolean): StartRates {
  const { timeline, share, observedK, blockOf, temperaturesK } = data;
  const line = timeline!;
  const n = share.length;
  const energy = new Float64Array(n);
  const loss = new Float64Array(n);
  const add = (k: number, j: number, l: number) => {
    if (k < 0) return;
    energy[k]! += share[k]! * j;
    loss[k]! -= share[k]! * l;
  };
  add(blockOf[0]!, 0, 0);
  let joules = 0;
  let kelvinSeconds = 0;
  let excess = temperaturesK[0]! - line.referenceK;
  let pendingS = 0;
  let ambient = 0;
  for (let i = 0; i < line.intervals; i += 1) {
    const h = line.widthS[i]!;
    if (withPower) joules += (h * (line.powerFromW![i]! + line.powerToW![i]!)) / 2;
    if (line.ambientFromK !== null) ambient += (h * (line.ambientFromK[i]! + line.ambientToK![i]!)) / 2;
    pendingS += h;
    const reading = line.reading === null ? i + 1 : line.reading[i]!;
    if (reading < 0) continue;
    const next = temperaturesK[reading]! - line.referenceK;
    kelvinSeconds += (pendingS * (excess + next)) / 2 - ambient;
    excess = next;
    pendingS = 0;
    ambient = 0;
    add(line.block[i]!, joules, kelvinSeconds);
  }
  const one = new Float64Array(n).fill(1);
  const columns = withPower ? [one, loss, energy] : [one, loss];
  const solved = solveNormal(
    columns,
    observedK.map((value) => value - line.referenceK),
  );
  const [startK, lossRate, heatingRate] = solved ?? [observedK[0]! - line.referenceK, 0, 0];
  return {
    startK: startK! + line.referenceK,
    lossRate: lossRate!,
    heatingRate: heatingRate ?? 0,
  };
}
