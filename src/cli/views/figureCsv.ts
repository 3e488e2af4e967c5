import type { Figure } from '../../evaluation/index.js';

type Row = Record<string, string | number | null>;

/** Figures as tidy rows, one a figure, and their columns with the unit in the header. */
export function csvOf(figures: readonly Figure[]): [Row[], string[]] {
  const rows = figures.map(
    (figure): Row => ({
      heater: figure.heater.id,
      setting: figure.setting,
      protocol: figure.protocol.name,
      definition: figure.definition,
      runs: figure.runs.length,
      'efficiency (1)': figure.efficiency.value,
      'standard uncertainty (1)': figure.efficiency.standardUncertainty,
      'coverage (1)': figure.efficiency.coverage,
      'low (1)': figure.efficiency.interval[0],
      'high (1)': figure.efficiency.interval[1],
      'next heating low (1)': figure.prediction.interval[0],
      'next heating high (1)': figure.prediction.interval[1],
      'spread basis': figure.spread.basis,
    }),
  );
  const columns = [
    'heater',
    'setting',
    'protocol',
    'definition',
    'runs',
    'efficiency (1)',
    'standard uncertainty (1)',
    'coverage (1)',
    'low (1)',
    'high (1)',
    'next heating low (1)',
    'next heating high (1)',
    'spread basis',
  ];
  return [rows, columns];
}
