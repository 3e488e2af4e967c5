/**
 * evaluation: from a run to its heat balance and efficiency, from runs to a figure with its budget, and forecasts of
 * what a plan would give, all through one and the same model.
 */
export { curvesOfRun } from './curves/curvesOfRun.js';
export { curvesOfStored } from './curves/curvesOfStored.js';
export { type NextThing, nextThing } from './curves/nextThing.js';
export { type PartWords, runCurveWords } from './curves/runCurveWords.js';
export { type ShownQuantity, shownQuantity } from './curves/shownQuantity.js';
export type {
  CurveClocks,
  CurveFit,
  CurveInputs,
  CurveOptions,
  CurvePart,
  CurveQuantity,
  PartName,
  RunCurves,
  SkippedFit,
} from './curves/types.js';
export { detailWords, percentWithUncertainty } from './detailWords.js';
export { type Doubt, doubts } from './doubts.js';
export { type Candidate, evaluateCandidate } from './evaluateCandidate.js';
export { ASSUMED_RELATIVE_SPREAD, type SpreadAssumption, evaluateFigure } from './evaluateFigure.js';
export { type RunInputs, evaluateRun } from './evaluateRun.js';
export { type EvaluateOptions, evaluateStored, evaluateWorkbook } from './evaluateWorkbook.js';
export { type Plan, forecast, halfWidth } from './forecast.js';
export {
  bestChange,
  forecastWords,
  percentText,
  pointsWords,
  plainWords,
  planLike,
  rangeWords,
} from './plainWords.js';
export type {
  Booking,
  EnergyReading,
  Figure,
  FigureBudgetRow,
  RefusedRun,
  RunConditions,
  RunEnergy,
  RunEvaluation,
  WithExcluded,
} from './types.js';
export type { WorkbookEvaluation } from './WorkbookEvaluation.js';
export type { Agreement, Method, MethodFigure, MethodRun, MethodValue } from './methods/types.js';
export { isPooled } from './methods/isPooled.js';
export { methodDetail } from './methods/methodDetail.js';
export { testedRange } from './losses/testedRange.js';
export { transferFromFills } from './losses/transferFromFills.js';
export type {
  BalanceHeater,
  FigureTransfer,
  HeatingPrediction,
  HeatingRequest,
  KnownBody,
  KnownLoss,
  KnownTransfer,
  LossFree,
  RunLoss,
  TestedRange,
} from './losses/types.js';
export { predictFigure } from './predictFigure.js';
export { vapourTemperature } from './vapourTemperature.js';
export { vesselMaterials } from './vesselMaterials.js';
export { cheapestPlan } from './cheapestPlan.js';
export { type Rota, type RotaInputs, type RotaSlot, dayRota } from './dayRota.js';
export { type Planned, planned } from './planned.js';
export { randomOrder } from './randomOrder.js';
export { type FigureComparison, type FigurePair, compareFigures, nameOf } from './compareFigures.js';
export { type FigureConformity, conformityOfFigure } from './conformityOfFigure.js';
export { validationsOf } from './validationsOf.js';
