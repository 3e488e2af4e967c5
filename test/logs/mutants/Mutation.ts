import type { Original } from './Original.js';
import type { Random } from './pick.js';

/** Makes a mutant of an export; `null` where the export has nothing of the kind. */
export type Mutation = (original: Original, random: Random) => Uint8Array | null;
