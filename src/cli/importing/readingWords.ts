import type { Plan } from './chooseMapping.js';

/** Where the reading comes from, before what it is: a saved mapping, or what was chosen at the terminal. */
export function readingWords({ saved }: Plan, chosen: readonly string[]): string[] {
  return [
    ...(saved === null ? [] : [`Read as saved for ${saved.name} (mappings/${saved.name}.yaml).`]),
    ...(chosen.length === 0 ? [] : [`Read as chosen; in a script: ${chosen.join(' ')}`]),
  ];
}
