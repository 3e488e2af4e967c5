/**
 * fitting: least squares, linear and nonlinear, with covariance or the reason why there is none; polynomials; the turning
 * point of a logged temperature. In `thermal/`: models of a heated load fitted to its log, what they tell of the heater, and
 * whether they fit.
 */
export type { FitResult, StopCode } from './FitResult.js';
export { fitPolynomial, type PolynomialPoints } from './fitPolynomial.js';
export { type FitInput, fit } from './fit.js';
export { fitProblem } from './fitProblem.js';
export { type LinearFitInput, linearFit } from './linearFit.js';
export type { FitOptions, Problem } from './Problem.js';
export { compareModels, type ModelComparison, type RankedModel } from './thermal/compareModels.js';
export { fitApproach } from './thermal/fitApproach.js';
export { type CoolDownOptions, fitCoolDown } from './thermal/fitCoolDown.js';
export { fitOneNode } from './thermal/fitOneNode.js';
export {
  type FitQuantities,
  type FitQuantitiesSpec,
  fitQuantities,
  type InstrumentError,
} from './thermal/fitQuantities.js';
export { fitTwoNode, type TwoNodeOptions } from './thermal/fitTwoNode.js';
export type { VapourLoss } from './thermal/openVessel.js';
export {
  type KnownHeater,
  type PlannedHeating,
  type PredictedHeating,
  predictHeating,
} from './thermal/predictHeating.js';
export {
  type LossCorrection,
  type LossCorrectionInput,
  regnaultPfaundler,
} from './thermal/regnaultPfaundler.js';
export { type StandingLoss, standingLoss, standingLossAt } from './thermal/standingLoss.js';
export { type ThermalDataOfLog, thermalDataOf } from './thermal/thermalDataOf.js';
export { type Fill, type HeaterFromFills, twoFills } from './thermal/twoFills.js';
export type {
  FitCurve,
  FitSensitivities,
  FittedQuantity,
  FitUse,
  FitVerdict,
  PowerSeries,
  ResidualTest,
  Stretch,
  TemperatureSeries,
  ThermalData,
  ThermalFit,
  ThermalFitOptions,
  ThermalModelName,
} from './thermal/types.js';
export { type TurningPoint, type TurningPointInput, turningPoint } from './turningPoint.js';
