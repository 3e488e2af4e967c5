import { byteKinds } from './byteKinds.js';
import { cellKinds } from './cellKinds.js';
import { lineKinds } from './lineKinds.js';
import type { Mutation } from './Mutation.js';
import { type Original, originals } from './Original.js';
import { pick, type Random } from './pick.js';
import { timeKinds } from './timeKinds.js';

/** Every kind of mutation by its name. */
export const kinds: Readonly<Record<string, Mutation>> = {
  ...byteKinds,
  ...lineKinds,
  ...cellKinds,
  ...timeKinds,
};

/** An export that is no longer clean. */
export interface Mutant {
  readonly kind: string;
  readonly original: Original;
  readonly bytes: Uint8Array;
}

const fuller = originals.filter((each) => each.fuller);
const corpus = originals.filter((each) => !each.fuller);

/** A mutant of one kind that differs from its original: of a fuller export as a rule, else of a file of the corpus. */
export function mutantOf(kind: string, random: Random): Mutant {
  for (;;) {
    const original = pick(random, random() < 0.7 ? fuller : corpus);
    const bytes = kinds[kind]!(original, random);
    if (bytes && Buffer.compare(bytes, original.bytes) !== 0) return { kind, original, bytes };
  }
}
