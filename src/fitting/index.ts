/**
 * fitting: least squares, linear and nonlinear, with covariance or the reason why there is none; polynomials; the turning
 * point of a logged temperature.
 */
export type { FitResult, StopCode } from './FitResult.js';
export { fitPolynomial, type PolynomialPoints } from './fitPolynomial.js';
export { type FitInput, fit } from './fit.js';
export { fitProblem } from './fitProblem.js';
export { type LinearFitInput, linearFit } from './linearFit.js';
export type { FitOptions, Problem } from './Problem.js';
export { type TurningPoint, type TurningPointInput, turningPoint } from './turningPoint.js';
