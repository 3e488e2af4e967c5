import type { ColumnGuess } from './guessColumn.js';
import { quantityRoles } from './names.js';
import { shownName } from './shownNames.js';
import { shownText } from './shownText.js';
import type { Layout } from './sniffLayout.js';

/** Sentences about columns whose header names the unit of a quantity, while their cells hold words or times. */
export function textColumnWarnings(layout: Layout, guesses: readonly ColumnGuess[]): string[] {
  return guesses.flatMap((guess) => {
    const { index, unit, role } = guess;
    const kind = layout.table.kinds[index];
    const isQuantity = unit !== null && (quantityRoles as readonly string[]).includes(unit.role);
    if (!isQuantity || kind === 'number' || kind === 'missing' || role === unit.role) return [];
    const cell = layout.table.sample
      .map(({ cells }) => cells[index] ?? '')
      .find((text) => text.trim() !== '');
    return [
      `${shownName(guess)} names the unit ${unit.symbol}, but its cells hold no numbers ("${shownText(cell ?? '')}"); no ${unit.role} was read from it.`,
    ];
  });
}
