import { type MethodFigure, methodDetail } from '../../evaluation/index.js';

/** JSON has no infinity: null stands for infinitely many degrees of freedom. */
const degrees = (value: number): number | null => (Number.isFinite(value) ? value : null);

/** What a cool-down, a hold, a boil-off or several fills tell, as `result --json` prints it. SI units. */
export function methodData(figure: MethodFigure): Record<string, unknown> {
  const { agreement } = figure;
  return {
    method: figure.method,
    heater: figure.heater.id,
    setting: figure.setting,
    lid: figure.lid,
    protocol: figure.protocol.name,
    values: figure.values.map(({ quantity: _, degreesOfFreedom, ...value }) => ({
      ...value,
      degreesOfFreedom: degrees(degreesOfFreedom),
    })),
    covariance: figure.covariance,
    agreement: agreement && {
      agree: agreement.agree,
      difference: agreement.difference,
      standardUncertainty: agreement.standardUncertainty,
      interval: agreement.interval,
      probabilityOfMore: agreement.probabilityOfMore,
      sentence: agreement.sentence,
    },
    lines: figure.lines,
    lacks: figure.lacks,
    runs: figure.runs.map(({ run, facts, efficiency, fit, warnings }) => ({
      run: run.id,
      facts,
      efficiency: efficiency?.efficiency[efficiency.protocol.headline]?.value ?? null,
      fit: fit && { model: fit.model, parameters: fit.parameters, verdict: fit.verdict, used: fit.used },
      warnings,
    })),
    warnings: figure.warnings,
  };
}

/** The same for a person: a heading for each heater and setting, a line a result. */
export function methodLines(figures: readonly MethodFigure[], detail: boolean): string[] {
  const lines: string[] = [];
  let heading = '';
  for (const figure of figures) {
    const title = headingOf(figure);
    if (title !== heading) lines.push(...(lines.length > 0 ? [''] : []), title);
    heading = title;
    lines.push(...figure.lines.map((line) => `  ${line}`));
    if (figure.lacks) lines.push(`  ${figure.lacks}`);
    const warnings = [
      ...figure.warnings,
      ...figure.runs.flatMap(({ run, warnings: own }) => own.map((each) => `${run.id}: ${each}`)),
    ];
    lines.push(...[...new Set(warnings)].map((warning) => `  Note: ${warning}`));
    if (detail) lines.push(...methodDetail(figure).map((line) => `    ${line}`));
  }
  return lines;
}

function headingOf({ heater, setting }: MethodFigure): string {
  if (setting === null) return `${heater.name}, switched off`;
  const name = heater.settings.find((each) => each.id === setting)?.name ?? setting;
  return `${heater.name}, ${name}: by other methods`;
}
