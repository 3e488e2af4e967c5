import { lidOf } from '../masses.js';
import type { RunContext } from '../RunContext.js';
import type { FittedPart } from './fittedPart.js';

/** A fall that is shorter, or begins sooner after switch-off, says too little of the loss, s; common practice, no source. */
const LEAST_FALL_S = 1200;
const LEAST_AFTER_S = 300;

/** What whoever reads a curve must know, in sentences. */
export function curveNotes(context: RunContext, fitted: readonly FittedPart[]): string[] {
  const notes: string[] = [];
  const vapourIn = fitted.filter(({ part, vapour }) => vapour === null && part.fits.some(hasLoss));
  const lid = lidOf(context);
  if (vapourIn.length > 0 && lid === 'off')
    notes.push(
      'The lid was off and nothing tells the vapour of this stretch: UA holds its heat, and is larger than that of the vessel alone.',
    );
  for (const { setup, part } of fitted) {
    if (part.name === 'cool-down') notes.push(...shortFall(setup));
    if (setup.room === null)
      notes.push('Nobody knows the temperature of the room: only an approach can be fitted.');
    if (setup.capacityMissing !== null)
      notes.push(
        `Without a heat capacity there is no κ and no UA, only the time constant: ${setup.capacityMissing}`,
      );
  }
  const used = fitted.flatMap(({ part }) => part.fits.slice(0, 1).flatMap(({ fit }) => fit.used.notes));
  return [...new Set([...notes, ...used.map((note) => `${note[0]?.toUpperCase()}${note.slice(1)}.`)])];
}

/** While the heater body still gives heat off the load falls too slowly. */
function shortFall({ firstS, lastS, switchings }: FittedPart['setup']): string[] {
  const offS = switchings[1];
  const afterS = offS === undefined ? Number.POSITIVE_INFINITY : firstS - offS;
  if (lastS - firstS >= LEAST_FALL_S && afterS >= LEAST_AFTER_S) return [];
  const minutes = (s: number) => `${Math.round(s / 60)} min`;
  const begins = offS === undefined ? '' : `begins ${minutes(afterS)} after switch-off and `;
  return [
    `The cool-down ${begins}is ${minutes(lastS - firstS)} long: the heater body may still give heat off, and UA may be too small. Forty minutes that begin ten minutes after switch-off are good.`,
  ];
}

const hasLoss = ({ model }: { readonly model: string }) => model !== 'approach';
