import { type Figure, detailWords } from '../../evaluation/index.js';

/** The words of metrology, set off from the plain ones. */
export function detailLines(figure: Figure): string[] {
  return ['', ...detailWords(figure), ''];
}
