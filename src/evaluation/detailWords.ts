import { consistencyTest, coverageFactor, grubbs } from '../statistics/index.js';
import { roundToUncertainty } from '../uncertainty/index.js';
import { formatQuantity } from '../units/index.js';
import { curveWords } from './losses/curveWords.js';
import { lossWords } from './losses/lossWords.js';
import type { Figure, RunEvaluation } from './types.js';
import { validationsOf } from './validationsOf.js';

/**
 * A ratio with its expanded uncertainty in per cent, rounded by the one rule.
 *
 * @example
 * percentWithUncertainty(0.56123, 0.0456) // => '56.1 ± 4.6 %'
 */
export function percentWithUncertainty(value: number, expanded: number): string {
  const rounded = roundToUncertainty(value * 100, expanded * 100);
  return `${rounded.value} ± ${rounded.uncertainty} %`;
}

/**
 * The figure in the words of metrology, a line each: value and k, spread, budget, definitions side by side, and the balance
 * and energies of each run.
 *
 * @example
 * const efficiency = { value: 0.5612, standardUncertainty: 0.023, coverage: 0.95, coverageFactor: 2, degreesOfFreedom: 60,
 *   degreesOfFreedomBasis: 'back-solved' };
 * const spread = { standardDeviation: 0.01, words: 'seen in 3 runs' };
 * const lines = detailWords({ definition: 'water', efficiency, spread, budget: [], definitions: { water: null }, runs: [] });
 * lines[2] // => 'standard deviation between runs 1.00 %, seen in 3 runs'
 * lines[5] // => '  water         not measured'
 */
export function detailWords(figure: Figure): string[] {
  const { efficiency } = figure;
  const expanded = efficiency.coverageFactor * efficiency.standardUncertainty;
  const degrees = Number.isFinite(efficiency.degreesOfFreedom)
    ? efficiency.degreesOfFreedom.toFixed(1)
    : 'infinite';
  const spread = roundToUncertainty(
    figure.spread.standardDeviation * 100,
    Math.max(figure.spread.standardDeviation * 10, 1e-6),
  );
  const coverage = formatQuantity(efficiency.coverage, 'ratio', '%');
  const lines = [
    `efficiency, definition "${figure.definition}": ${percentWithUncertainty(efficiency.value, expanded)} (coverage ${coverage}, k = ${efficiency.coverageFactor.toFixed(2)}, degrees of freedom ${degrees}, ${efficiency.degreesOfFreedomBasis})`,
    `combined standard uncertainty ${formatQuantity(efficiency.standardUncertainty, 'ratio', '%', 2)}`,
    `standard deviation between runs ${spread.value} %, ${figure.spread.words}`,
    ...consistencyLine(figure),
    'budget of the mean (source, contribution in points, share of the variance):',
  ];
  for (const row of figure.budget.filter((each) => each.share >= 0.0005)) {
    const points = (row.contribution * 100).toFixed(3);
    lines.push(
      `  ${points.padStart(7)}  ${`${(row.share * 100).toFixed(1)} %`.padStart(7)}  ${row.source}${row.assumed ? ' (assumed)' : ''}`,
    );
  }
  lines.push('definitions side by side:');
  for (const [name, result] of Object.entries(figure.definitions)) {
    const text =
      result === null
        ? 'not measured'
        : percentWithUncertainty(result.value, (result.interval[1] - result.interval[0]) / 2);
    lines.push(`  ${name.padEnd(13)} ${text}`);
  }
  lines.push(...curveWords(figure));
  for (const run of figure.runs) lines.push(...runLines(run));
  lines.push('first order against Monte Carlo (JCGM 101, clause 8), run by run:');
  for (const { run, validation } of validationsOf(figure)) lines.push(`  ${run}: ${validation.sentence}`);
  return lines;
}

/** Whether the runs scatter as their own doubts say. */
function consistencyLine(figure: Figure): string[] {
  if (figure.runs.length < 2) return [];
  const values = figure.runs.map((run) => run.efficiency[figure.definition]?.value ?? Number.NaN);
  const uncertainties = figure.runs.map((run) => freshUncertainty(run, figure));
  if (uncertainties.some((u) => !(u > 0))) return [];
  const found = consistencyTest({ values, uncertainties });
  const birge = found.birgeRatio === null ? '' : `, Birge ratio ${found.birgeRatio.toFixed(2)}`;
  return [
    `consistency of the runs: chi-squared ${found.chiSquared.toFixed(2)} with ${found.degreesOfFreedom} degrees of freedom, ${found.pValue < 0.001 ? 'p < 0.001' : `p = ${found.pValue.toFixed(3)}`}${birge}`,
    ...grubbsLine(figure, values),
  ];
}

/** The run farthest from the others, and whether that is farther than chance explains. */
function grubbsLine(figure: Figure, values: readonly number[]): string[] {
  if (values.length < 3) return [];
  const found = grubbs({ values, sides: 'two', significance: 0.05 });
  if (found.suspectedIndex === null) return [];
  const run = figure.runs[found.suspectedIndex]?.run.id;
  return [
    `farthest run: ${run}, Grubbs' G ${found.statistic.toFixed(3)} against ${found.critical.toFixed(3)} at 5 %, two-sided`,
  ];
}

function freshUncertainty(run: RunEvaluation, figure: Figure): number {
  const rows = run.efficiency[figure.definition]?.budget ?? [];
  const fresh = rows.filter((row) => row.source.scope === 'run' || row.source.scope === 'reading');
  return Math.sqrt(fresh.reduce((sum, row) => sum + row.contribution ** 2, 0));
}

function runLines(run: RunEvaluation): string[] {
  const k = coverageFactor(0.95, Number.POSITIVE_INFINITY);
  const kWh = (joules: number, u: number) => {
    const rounded = roundToUncertainty(joules / 3.6e6, (k * u) / 3.6e6);
    return `${rounded.value} ± ${rounded.uncertainty} kWh`;
  };
  const lines = [`run ${run.run.id}:`];
  for (const booking of run.balance) {
    const share = percentWithUncertainty(booking.share.value, booking.share.expandedUncertainty);
    lines.push(
      `  ${booking.name.padEnd(30)} ${kWh(booking.heat.value, booking.heat.standardUncertainty)}, ${share}`,
    );
  }
  const { typed, logged, counter, used } = run.energy;
  for (const [name, reading] of [
    ['typed', typed],
    ['logged', logged],
    ['counter in the export', counter],
  ] as const) {
    if (reading === null) continue;
    const mark = name === used ? ', used' : '';
    lines.push(
      `  energy ${name}: ${kWh(reading.energy.value, reading.energy.standardUncertainty)} (${reading.how}${mark})`,
    );
  }
  lines.push(...lossWords(run).map((line) => `  ${line}`));
  return lines;
}
