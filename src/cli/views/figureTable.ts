import { type Figure, percentText, rangeWords } from '../../evaluation/index.js';

/** Figures side by side, a line each. */
export function figureTable(figures: readonly Figure[]): string[] {
  const rows = [['heater', 'setting', 'runs', 'reaches', 'next heating, most likely', 'definition']];
  for (const figure of figures) {
    const half = (figure.prediction.interval[1] - figure.prediction.interval[0]) / 2;
    rows.push([
      figure.heater.name,
      figure.setting,
      String(figure.runs.length),
      `${percentText(figure.efficiency.value, half)} %`,
      rangeWords(figure.prediction.interval),
      figure.definition,
    ]);
  }
  const widths =
    rows[0]?.map((_, column) => Math.max(...rows.map((row) => (row[column] as string).length))) ?? [];
  return rows.map((row) =>
    row
      .map((cell, column) => cell.padEnd(widths[column] as number))
      .join('  ')
      .trimEnd(),
  );
}
