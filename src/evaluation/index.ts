/**
 * evaluation: from a run to its heat balance and efficiency, from runs to a figure with its budget, and forecasts of
 * what a plan would give, all through one and the same model.
 */
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
  WorkbookEvaluation,
} from './types.js';
export { vapourTemperature } from './vapourTemperature.js';
export { vesselMaterials } from './vesselMaterials.js';
export { cheapestPlan } from './cheapestPlan.js';
export { type Rota, type RotaInputs, type RotaSlot, dayRota } from './dayRota.js';
export { type Planned, planned } from './planned.js';
export { randomOrder } from './randomOrder.js';
export { type FigureComparison, type FigurePair, compareFigures, nameOf } from './compareFigures.js';
export { type FigureConformity, conformityOfFigure } from './conformityOfFigure.js';
export { validationsOf } from './validationsOf.js';
