import type { Argv } from 'yargs';
import { problem } from '../../errors/index.js';
import {
  type Figure,
  type FigureComparison,
  compareFigures,
  evaluateWorkbook,
  nameOf,
  percentText,
  percentWithUncertainty,
  pointsWords,
} from '../../evaluation/index.js';
import { enNumber, zetaScore } from '../../statistics/index.js';
import { openWorkbook } from '../../workbook/index.js';
import { type CommonArgs, type Outcome, theWorkbook } from '../Outcome.js';
import type { Command } from '../Command.js';

interface Args extends CommonArgs {
  readonly figures?: readonly string[];
  readonly other?: string;
}

export const command: Command = {
  builder: (yargs: Argv) =>
    yargs
      .positional('figures', {
        type: 'string',
        array: true,
        describe: 'heater/setting, two or more (else all)',
      })
      .option('other', {
        type: 'string',
        requiresArg: true,
        describe: "another lab's workbook: the same figure there",
      }),
  handler: async (args: Args): Promise<Outcome> => {
    const figures = chosen(evaluateWorkbook(theWorkbook(args)).figures, args.figures ?? []);
    return args.other === undefined ? withinLab(compareFigures(figures)) : betweenLabs(figures, args.other);
  },
};

/** The figures named, in the order named; all where none is. */
function chosen(figures: readonly Figure[], names: readonly string[]): Figure[] {
  if (names.length === 0) return [...figures];
  const known = figures.map(nameOf).join(', ') || 'none yet';
  return names.map((name) => {
    const found = figures
      .filter((figure) => nameOf(figure) === name)
      .sort((a, b) => b.runs.length - a.runs.length)[0];
    if (!found) throw problem('figure-unknown', { got: name, known }, { key: 'figures' });
    return found;
  });
}

function withinLab(compared: FigureComparison): Outcome {
  const { figures, ranking } = compared;
  const nameAt = (index: number) => nameOf(figures[index] as Figure);
  const lines = ranking.results.map((result) => {
    const figure = figures[result.index] as Figure;
    const half = (figure.efficiency.interval[1] - figure.efficiency.interval[0]) / 2;
    const [best, worst] = result.ranks;
    const rank = best === worst ? `rank ${best}` : `rank ${best} to ${worst}, not settled`;
    return `${nameAt(result.index).padEnd(28)} ${percentText(figure.efficiency.value, half).padStart(5)} %  ${rank}`;
  });
  lines.push('');
  for (const pair of compared.pairs) {
    const { comparison } = pair;
    const half = (comparison.interval[1] - comparison.interval[0]) / 2;
    const [up, down] = comparison.difference >= 0 ? [pair.first, pair.second] : [pair.second, pair.first];
    const points = percentText(Math.abs(comparison.difference), half);
    // Of many pairs each is judged with the others: the ranking knows.
    const settled = ranking.pairs.find((each) => each.better === up && each.worse === down)?.settled === true;
    const chance = Math.max(comparison.probabilityHigher, 1 - comparison.probabilityHigher);
    const words = settled
      ? `${nameAt(up)} reaches more than ${nameAt(down)}`
      : `${nameAt(up)} and ${nameAt(down)} can't be told apart`;
    lines.push(
      `${words}: ${points} points apart, ${pointsWords(half)} (higher with a chance of ${chanceText(chance)})`,
    );
  }
  lines.push(
    '',
    'Errors that two figures share, such as those of one meter, have cancelled in the differences.',
  );
  return { data: comparisonData(compared), lines, warnings: compared.warnings };
}

/** Never 100 %: nothing here is certain. */
function chanceText(chance: number): string {
  return chance > 0.999 ? 'over 99.9 %' : `${(chance * 100).toFixed(chance > 0.99 ? 1 : 0)} %`;
}

function comparisonData({ figures, pairs, ranking, warnings }: FigureComparison): unknown {
  const finite = (value: number) => (Number.isFinite(value) ? value : null);
  return {
    figures: figures.map((figure) => ({
      heater: figure.heater.id,
      setting: figure.setting,
      value: figure.efficiency.value,
      interval: figure.efficiency.interval,
    })),
    pairs: pairs.map((pair) => ({
      first: nameOf(figures[pair.first] as Figure),
      second: nameOf(figures[pair.second] as Figure),
      ...pair.comparison,
      standardUncertainty: pair.standardUncertainty,
      degreesOfFreedom: finite(pair.degreesOfFreedom),
    })),
    ranking: ranking.results.map((result) => ({
      figure: nameOf(figures[result.index] as Figure),
      rank: result.rank,
      ranks: result.ranks,
      settled: result.settled,
    })),
    warnings,
  };
}

/** Two labs share no source: E_n and zeta as proficiency tests use them. */
function betweenLabs(figures: readonly Figure[], dir: string): Outcome {
  const others = evaluateWorkbook(openWorkbook(dir)).figures;
  const rows = figures.flatMap((mine) => {
    const theirs = others.find(
      (figure) => nameOf(figure) === nameOf(mine) && figure.definition === mine.definition,
    );
    if (!theirs) return [];
    const expanded = (figure: Figure) => ({
      value: figure.efficiency.value,
      expanded: figure.efficiency.coverageFactor * figure.efficiency.standardUncertainty,
    });
    const standard = (figure: Figure) => ({
      value: figure.efficiency.value,
      standardUncertainty: figure.efficiency.standardUncertainty,
    });
    return [
      {
        figure: nameOf(mine),
        ours: expanded(mine),
        theirs: expanded(theirs),
        en: enNumber(expanded(mine), expanded(theirs)),
        zeta: zetaScore(standard(mine), standard(theirs)),
      },
    ];
  });
  if (rows.length === 0) {
    throw problem(
      'figure-unknown',
      { got: figures.map(nameOf).join(', '), known: others.map(nameOf).join(', ') || 'none' },
      { file: dir },
    );
  }
  const lines = rows.map(({ figure, ours, theirs, en, zeta }) => {
    const verdict =
      en.verdict === 'satisfactory'
        ? 'the two agree within what both state'
        : 'the two do not agree: one of them states too little doubt';
    return `${figure}: ${percentWithUncertainty(ours.value, ours.expanded)} here, ${percentWithUncertainty(theirs.value, theirs.expanded)} there; ${verdict} (E_n = ${en.score.toFixed(2)}, zeta = ${zeta.score.toFixed(2)}, ${zeta.verdict})`;
  });
  return { data: { labs: rows }, lines };
}
