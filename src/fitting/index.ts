/**
 * fitting: least squares. So far polynomials and the turning point of a logged temperature.
 */
export type { FitResult } from './FitResult.js';
export { fitPolynomial, type PolynomialPoints } from './fitPolynomial.js';
export { type TurningPoint, type TurningPointInput, turningPoint } from './turningPoint.js';
