import type { CurveFit, CurvePart, CurveQuantity, RunCurves } from '../../evaluation/index.js';

/** Rows of a budget that are shown. */
const BUDGET_ROWS = 8;

const testNames = {
  runs: 'runs of one sign',
  'Durbin-Watson': 'Durbin and Watson',
  'Ljung-Box': 'Ljung and Box',
  largest: 'largest residual',
} as const;

const modelTitles = {
  approach: 'approach',
  coolDown: 'cool-down',
  oneNode: 'one node',
  twoNode: 'two nodes',
} as const;

/** The words of metrology: phases, clocks, and of each fit blocks, tests, correlations, budgets, why it stopped. */
export function detailOfCurves({ zero, clocks, ambient, phases, parts }: RunCurves): string[] {
  const minutes = (s: number) => (s / 60).toFixed(1);
  return [
    `times count from ${zero === 'switch-on' ? 'switch-on' : 'the first reading'}; ${clocks.words}${clocks.standardUncertaintyS > 0 ? ` (standard uncertainty ${clocks.standardUncertaintyS.toFixed(1)} s)` : ''}`,
    ambient === null
      ? 'temperature of the room: not known'
      : `temperature of the room ${(ambient.kelvin - 273.15).toFixed(2)} °C, ${ambient.words}`,
    ...phases.phases.map(
      ({ name, fromS, toS, evidence }) => `${name} ${minutes(fromS)} to ${minutes(toS)} min: ${evidence}`,
    ),
    ...parts.flatMap((part) => part.fits.flatMap((fit) => ['', ...fitLines(part, fit)])),
  ];
}

function fitLines(part: CurvePart, { model, fit, parameters, quantities }: CurveFit): string[] {
  const { blocks, used, tests, covariance } = fit;
  const weight = part.comparison?.ranked.find((each) => each.fit === fit);
  return [
    `${part.name}, ${modelTitles[model]}: ${used.readings} readings in ${blocks.count} blocks of ${blocks.lengthS} s, ${used.leftOut} left out`,
    `  ${fit.stopReason}; ${fit.evaluations} evaluations, ${fit.restarts} restarts`,
    `  residual standard deviation ${fit.residualStandardDeviationK.toFixed(4)} K, autocorrelation ${blocks.autocorrelation.toFixed(2)} from block to block: worth ${blocks.effective.toFixed(1)} independent blocks, ${fit.degreesOfFreedom.toFixed(1)} degrees of freedom`,
    ...(weight
      ? [
          `  AICc ${fit.aicc.toFixed(1)}, ${weight.difference === null ? 'not ranked' : `${weight.difference.toFixed(1)} above the best`}, weight ${weight.weight.toFixed(3)}`,
        ]
      : [`  AICc ${fit.aicc.toFixed(1)}`]),
    ...tests.map(
      ({ name, statistic, probability }) =>
        `  ${testNames[name]}: ${Number(statistic.toPrecision(3))}, ${probability === null ? 'too few blocks to judge' : `probability ${probability < 0.001 ? 'under 0.001' : probability.toFixed(3)}`}`,
    ),
    ...(covariance === null
      ? [`  no covariance: ${fit.covarianceReason}`]
      : [
          '  correlation of the parameters, from the scatter of the log:',
          ...correlationLines(covariance, parameters),
        ]),
    ...quantities.filter(({ name }) => name === 'kappa' || name === 'ua').flatMap(budgetLines),
  ];
}

function correlationLines(
  covariance: readonly (readonly number[])[],
  parameters: readonly CurveQuantity[],
): string[] {
  const width = Math.max(...parameters.map(({ name }) => name.length));
  return covariance.map((row, i) => {
    const cells = row.slice(0, i + 1).map((value, j) => {
      const scale = Math.sqrt((covariance[i]?.[i] ?? 0) * (covariance[j]?.[j] ?? 0));
      return (scale > 0 ? value / scale : 0).toFixed(3).padStart(7);
    });
    return `    ${(parameters[i]?.name ?? '').padEnd(width)} ${cells.join(' ')}`;
  });
}

function budgetLines({ name, result }: CurveQuantity): string[] {
  if (result === null) return [];
  const kappa = name === 'kappa';
  const rows = result.budget.slice(0, BUDGET_ROWS).map(({ source, contribution, share, correlationOf }) => {
    const shown = kappa ? `${(100 * contribution).toFixed(3)} %` : `${contribution.toPrecision(2)} W/K`;
    const what = correlationOf ? 'correlation of the parameters' : source.name;
    return `    ${shown.padStart(11)}  ${`${(100 * share).toFixed(1)} %`.padStart(7)}  ${what}${source.assumed ? ' (assumed)' : ''}`;
  });
  const rest = result.budget.length - rows.length;
  return [
    `  budget of ${kappa ? 'κ' : 'UA'} (contribution, share of the variance, source):`,
    ...rows,
    ...(rest > 0 ? [`    and ${rest} smaller ones`] : []),
  ];
}
