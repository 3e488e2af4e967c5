import type { Outcome } from './outcome.js';

// Half a step of the counter at either end of both energies, and a step for the standby beside the heating.
const counterSteps = 3;

/** Whether an energy of the mutant differs beyond twice the combined standard uncertainty, came or went. */
export function energyChanged(clean: Outcome, mutant: Outcome): boolean {
  const leastWh = counterSteps * clean.stepWh;
  const energy = differs(clean.energyWh, mutant.energyWh, clean.energyUWh, mutant.energyUWh);
  // Where there is no power the energy is the counter's.
  if (!clean.hasPower) return energy && !within(clean.energyWh, mutant.energyWh, leastWh);
  const counter = differs(clean.counterWh, mutant.counterWh, clean.counterUWh, mutant.counterUWh);
  return energy || (counter && !within(clean.counterWh, mutant.counterWh, leastWh));
}

function differs(clean: number | null, mutant: number | null, cleanU: number, mutantU: number): boolean {
  if (clean === null || mutant === null) return clean !== mutant;
  return !within(clean, mutant, 2 * Math.hypot(cleanU, mutantU));
}

function within(clean: number | null, mutant: number | null, most: number): boolean {
  // 1e-9 of the energy is what two orders of adding up may make.
  return clean !== null && mutant !== null && Math.abs(mutant - clean) <= most + 1e-9 * Math.abs(clean);
}

/** The warnings of the mutant that the clean export hasn't got, numbers apart: each sentence there accounts for one here. */
export function newWarnings(clean: readonly string[], mutant: readonly string[]): string[] {
  const had = clean.map(withoutNumbers);
  return mutant.filter((warning) => {
    const at = had.indexOf(withoutNumbers(warning));
    if (at >= 0) had.splice(at, 1);
    return at < 0;
  });
}

const withoutNumbers = (text: string) => text.replace(/[\d.:]+/g, '#');
