/**
 * Published examples of JCGM 100:2008 (GUM 1995 with minor corrections), with the source and the provenance of each
 * number: read (in a public reproduction of the annex), computed (by an independent program, from the published
 * inputs), or from memory. SI unless the name says otherwise.
 */

/** Annex H.1, calibration of an end gauge; lengths in nm. Inputs and results: read. */
export const endGauge = {
  standardNm: { value: 50_000_623, u: 25, degreesOfFreedom: 18 },
  /**
   * Mean of five readings with s = 13 nm; the comparator's random errors, 10 nm with k = t95(5) = 2.57; its systematic
   * ones, 20 nm at three standard deviations: H.1.3.2. Printed as 5.8, 3.9 and 6.7 nm.
   */
  differenceNm: {
    value: 215,
    parts: [
      { u: 13 / Math.sqrt(5), degreesOfFreedom: 24 },
      { u: 10 / 2.57, degreesOfFreedom: 5 },
      { u: 20 / 3, degreesOfFreedom: 8 },
    ],
    u: 9.7,
    degreesOfFreedom: 25.6,
  },
  /** Difference of the expansion coefficients, per °C; u to two digits as printed, half-width of the rectangle. */
  expansionDifference: { value: 0, u: 0.58e-6, halfWidth: 1e-6, degreesOfFreedom: 50 },
  temperatureDifference: { value: 0, u: 0.029, halfWidth: 0.05, degreesOfFreedom: 2 },
  expansion: { value: 11.5e-6, halfWidth: 2e-6 },
  /** Mean deviation of the test bed from 20 °C and its cyclic variation, an arcsine of half-width 0.5 °C. */
  temperature: { value: -0.1, meanU: 0.2, cyclicHalfWidth: 0.5, u: 0.41 },
  published: {
    lengthNm: 50_000_838,
    /** In the order standard, difference, expansion, temperature, expansion difference, temperature difference. */
    contributionsNm: [25, 9.7, 0, 0, 2.9, 16.6],
    combinedNm: 32,
    /** Before rounding to 32; read beside it. */
    combinedUnroundedNm: 31.71,
    effectiveDegreesOfFreedom: 16.7,
    /** With the effective degrees of freedom cut to 16. */
    k99: 2.92,
    expanded99Nm: 93,
  },
} as const;

/** Annex H.2, resistance, reactance and impedance. Observations and R, X, Z: read; correlations: from memory, computed. */
export const impedance = {
  voltageV: [5.007, 4.994, 5.005, 4.99, 4.999],
  currentA: [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3],
  phaseRad: [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
  published: {
    inputCorrelations: { vi: -0.36, vPhi: 0.86, iPhi: -0.65 },
    resistance: { value: 127.732, u: 0.071 },
    /** Printed as 0.295; without rounding on the way it is 0.2956 (computed). */
    reactance: { value: 219.847, u: 0.295 },
    impedance: { value: 254.26, u: 0.236 },
    outputCorrelations: { rx: -0.588, rz: -0.485, xz: 0.993 },
    /** Table H.5, what comes out where the correlations are left out: from memory, computed. */
    withoutCorrelation: { r: 0.195, x: 0.201, z: 0.204 },
  },
} as const;

/** Annex H.3, calibration of a thermometer: fitted line and its prediction at 30 °C. Read. */
export const thermometerLine = {
  interceptK: { value: -0.1712, u: 0.0029 },
  slope: { value: 0.00218, u: 0.00067 },
  correlation: -0.93,
  at30: { value: -0.1494, u: 0.0041 },
} as const;

/** Clause G.4.1, NOTE 3 with its example: a product of three, relative standard uncertainties in per cent. From memory. */
export const productOfThree = {
  relativePercent: [0.25, 0.57, 0.82],
  degreesOfFreedom: [9, 4, 14],
  published: { combinedPercent: 1.03, effectiveDegreesOfFreedom: 19, t95: 2.09, expandedPercent: 2.2 },
} as const;

/** Clause 4.3.7, examples 1 and 2, and 5.1.5. From memory. */
export const clause437 = {
  /** Expansion of copper: the error should not exceed 0.40e-6 per °C. */
  copper: { halfWidth: 0.4e-6, u: 0.23e-6 },
  /** A voltmeter: 14e-6 of the reading and 2e-6 of its 1 V range, added up; the readings' own 12 µV beside it. */
  voltmeter: {
    readingV: 0.928571,
    ofReading: 14e-6,
    ofRange: 2e-6,
    rangeV: 1,
    halfWidthV: 15e-6,
    u: 8.7e-6,
    repeatU: 12e-6,
    combinedU: 15e-6,
  },
} as const;

/** Half-width over standard uncertainty: rectangular 4.3.7, triangular and trapezoidal 4.3.9; arcsine H.1.3.4. From memory. */
export const shapes = [
  { distribution: 'rectangular', divisor: Math.sqrt(3) },
  { distribution: 'triangular', divisor: Math.sqrt(6) },
  { distribution: 'arcsine', divisor: Math.sqrt(2) },
] as const;
