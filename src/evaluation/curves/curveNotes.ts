import { lidOf } from '../masses.js';
import type { RunContext } from '../RunContext.js';
import type { FittedPart } from './fittedPart.js';

/** What whoever reads a curve must know, in sentences. */
export function curveNotes(context: RunContext, fitted: readonly FittedPart[]): string[] {
  const notes: string[] = [];
  const vapourIn = fitted.filter(({ part, vapour }) => vapour === null && part.fits.some(hasLoss));
  const lid = lidOf(context);
  if (vapourIn.length > 0 && lid === 'off')
    notes.push(
      'The lid was off and nothing tells the vapour of this stretch: UA holds its heat, and is larger than that of the vessel alone.',
    );
  for (const { setup } of fitted) {
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

const hasLoss = ({ model }: { readonly model: string }) => model !== 'approach';
