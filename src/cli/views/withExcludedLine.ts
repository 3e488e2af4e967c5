import { type Figure, percentText, rangeWords } from '../../evaluation/index.js';

/** What a figure would be with the runs that a person took out; nothing where there are none. */
export function withExcludedLine(figure: Figure): string[] {
  const { withExcluded } = figure;
  if (withExcluded === null) return [];
  const half = (withExcluded.prediction[1] - withExcluded.prediction[0]) / 2;
  const names = withExcluded.runs.map((run) => run.run).join(', ');
  return [
    `With ${names}: ${percentText(withExcluded.value, half)} %, next time ${rangeWords(withExcluded.prediction)}`,
  ];
}
