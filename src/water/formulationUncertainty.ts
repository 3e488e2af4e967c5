/**
 * How far an enthalpy difference of liquid water by IAPWS-IF97 may be from that by the scientific formulation
 * IAPWS-95, as a relative error with a rectangular distribution. At 101 325 Pa the two differ by at most 0.036 % for
 * heating from 5 to 30 °C up to 45 to 95 °C (most from 30 to 75 °C; from 20 °C or below at most 0.028 %); the
 * half-width of 0.04 % encloses that. What IAPWS-95 itself leaves open is not in it.
 * Sources: IAPWS R7-97(2012); IAPWS R6-95(2018).
 *
 * @example
 * formulationUncertainty.relativeStandard // => 0.00023094
 */
export const formulationUncertainty = {
  distribution: 'rectangular',
  relativeHalfWidth: 4e-4,
  relativeStandard: 4e-4 / Math.sqrt(3),
  reason:
    'Enthalpy differences of liquid water by IAPWS-IF97 and by IAPWS-95 at 101 325 Pa differ by at most 0.036 % ' +
    'for heating from 5 to 30 °C up to 45 to 95 °C; taken as a rectangular error of ± 0.04 %.',
} as const;
