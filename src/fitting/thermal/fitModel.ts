import { studentQuantile } from '../../statistics/index.js';
import type { FitResult } from '../FitResult.js';
import type { Problem } from '../Problem.js';
import { type AutocorrelatedFit, fitAutocorrelated } from './fitAutocorrelated.js';
import { informationCriterion } from './informationCriterion.js';
import { columnsOf } from './normalEquations.js';
import type { Prepared } from './Prepared.js';
import { prepareData } from './prepareData.js';
import { testResiduals } from './testResiduals.js';
import { sensitivitiesOf } from './sensitivitiesOf.js';
import type { Derived, ParameterMeaning, ThermalModel } from './ThermalModel.js';
import type {
  FitCurve,
  FittedQuantity,
  Stretch,
  ThermalData,
  ThermalFit,
  ThermalFitOptions,
} from './types.js';
import { type Unjudged, verdictOf } from './verdictOf.js';
import { whiten } from './whiten.js';

const coverage = 0.95;

/** Fits a model to data, tests what is left, and says in words what came of it. */
export function fitModel(model: ThermalModel, data: ThermalData, options: ThermalFitOptions): ThermalFit {
  const prepared = prepareData(data, options, model.needs);
  const { fit, evidence } = fitPrepared(model, prepared, options);
  const again = (leaveOut: Stretch) => {
    const others = { ...options, leaveOut: [...(options.leaveOut ?? []), leaveOut] };
    return fitPrepared(model, prepareData(data, others, model.needs), others).fit;
  };
  return { ...fit, verdict: verdictOf(fit, evidence, prepared, again) };
}

function fitPrepared(model: ThermalModel, data: Prepared, options: ThermalFitOptions) {
  const problem = model.problem(data);
  const fit = fitAutocorrelated(problem, {
    observed: data.observedK,
    gaps: data.gaps,
    start: model.start(data),
    lower: model.lower(data),
    upper: model.upper(data),
  });
  const { result, autocorrelation, degreesOfFreedom, effective } = fit;
  const { parameters, covariance, covarianceReason } = result;
  const { curve, whitened } = curveOf(problem, data, fit);
  const derived = model.derived(parameters, data, options);
  const residuals = curve.residualsK;
  const squares = residuals.reduce((sum, e) => sum + e * e, 0);
  const unjudged: Unjudged = {
    model: model.name,
    parameters: model.parameters.map((each, j) => parameterOf(each, j, result)),
    covariance,
    covarianceReason,
    degreesOfFreedom,
    quantities: derived.map((each) => quantityOf(each, covariance, covarianceReason)),
    blocks: { lengthS: data.blockS, count: problem.points, autocorrelation, effective },
    residualStandardDeviationK: Math.sqrt(squares / (problem.points - problem.parameters)),
    readingScatterK: readingScatter(data),
    curve,
    tests: testResiduals(curve.whitened, result.degreesOfFreedom),
    aicc: informationCriterion(result.residualSumOfSquares, problem, autocorrelation, data.gaps),
    sensitivities: sensitivitiesOf(model, data, fit, whitened),
    used: data.used,
    converged: result.converged,
    stopReason: result.stopReason,
    evaluations: fit.evaluations,
    restarts: fit.restarts,
  };
  const evidence = { ordinaryResidualsK: fit.ordinaryResiduals, atBounds: result.atBounds };
  return { fit: unjudged, evidence };
}

function parameterOf(
  { name, meaning, unit }: ParameterMeaning,
  j: number,
  result: FitResult,
): FittedQuantity {
  return {
    name,
    meaning,
    unit,
    value: result.parameters[j]!,
    standardUncertainty: result.standardErrors?.[j] ?? null,
    reason: result.standardErrors ? null : result.covarianceReason,
    conditionalOn: null,
  };
}

function quantityOf(each: Derived, covariance: FitResult['covariance'], why: string | null): FittedQuantity {
  const { name, meaning, unit, value, gradient, reason, conditionalOn } = each;
  const variance = covariance ? quadratic(gradient, covariance) : null;
  const known = value !== null && variance !== null;
  return {
    name,
    meaning,
    unit,
    value,
    standardUncertainty: known ? Math.sqrt(Math.max(0, variance)) : null,
    reason: known ? null : (reason ?? why),
    conditionalOn: conditionalOn ?? null,
  };
}

function quadratic(g: readonly number[], matrix: readonly (readonly number[])[]): number {
  return g.reduce((sum, a, i) => sum + a * g.reduce((row, b, j) => row + matrix[i]![j]! * b, 0), 0);
}

/** Curve and bands at the blocks, and the whitened Jacobian there. */
function curveOf(
  problem: Problem,
  data: Prepared,
  fit: AutocorrelatedFit,
): { curve: FitCurve; whitened: Float64Array[] } {
  const { points, parameters } = problem;
  const at = Float64Array.from(fit.result.parameters);
  const fitted = new Float64Array(points);
  const jacobian = new Float64Array(points * parameters);
  problem.evaluate(at, fitted, jacobian);
  const columns = columnsOf(jacobian, points);
  const residuals = data.observedK.map((value, k) => value - fitted[k]!);
  const white = residuals.slice();
  whiten(white, data.gaps, fit.autocorrelation);
  const { covariance, residualStandardDeviation } = fit.result;
  const s = residualStandardDeviation ?? 0;
  const t = studentQuantile((1 + coverage) / 2, fit.degreesOfFreedom);
  const blockVariance = (s * s) / (1 - fit.autocorrelation ** 2);
  const variances = covariance
    ? Array.from(fitted, (_, k) =>
        quadratic(
          columns.map((column) => column[k]!),
          covariance,
        ),
      )
    : null;
  const jacobianWhite = jacobian.slice();
  for (const column of columnsOf(jacobianWhite, points)) whiten(column, data.gaps, fit.autocorrelation);
  return {
    whitened: columnsOf(jacobianWhite, points),
    curve: {
      timesS: Array.from(data.blockTimesS),
      observedK: Array.from(data.observedK),
      fittedK: Array.from(fitted),
      residualsK: Array.from(residuals),
      whitened: Array.from(white, (e) => (s > 0 ? e / s : 0)),
      confidenceK: variances?.map((v) => t * Math.sqrt(v)) ?? null,
      predictionK: variances?.map((v) => t * Math.sqrt(v + blockVariance)) ?? null,
    },
  };
}

/** Scatter of single readings about their neighbours, K: from second differences, free of any smooth curve. */
function readingScatter({ temperaturesK, blockOf }: Prepared): number {
  let sum = 0;
  let count = 0;
  for (let i = 2; i < temperaturesK.length; i += 1) {
    if (blockOf[i]! < 0 || blockOf[i - 2]! < 0) continue;
    sum += (temperaturesK[i]! - 2 * temperaturesK[i - 1]! + temperaturesK[i - 2]!) ** 2;
    count += 1;
  }
  return count > 0 ? Math.sqrt(sum / count / 6) : 0;
}
