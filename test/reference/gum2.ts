/**
 * More of JCGM 100:2008 annex H: what correlated groups of errors need. Observations and results: read in public reproductions
 * of the annex, unless said otherwise.
 */

/** Annex H.2.4, the second approach: R, X and Z computed from each of the five sets of readings, then averaged. */
export const impedanceSecondApproach = {
  resistance: { value: 127.732, u: 0.071 },
  reactance: { value: 219.847, u: 0.295 },
  impedance: { value: 254.26, u: 0.236 },
  /** With nothing rounded on the way, computed from the observations by an independent program. */
  computed: {
    resistance: { value: 127.7316304828154, u: 0.07127354317859465 },
    reactance: { value: 219.84689460329236, u: 0.29548908561008286 },
    impedance: { value: 254.26004958674116, u: 0.23624750170396888 },
    correlations: { rx: -0.5882768557970616, rz: -0.4850646136632314, xz: 0.9925075421320315 },
  },
} as const;

/** Annex H.2.3, the first approach with nothing rounded on the way: computed from the observations by an independent program. */
export const impedanceFirstApproach = {
  resistance: { value: 127.73216992810208, u: 0.07107140739699515 },
  reactance: { value: 219.84651191263848, u: 0.29558167735863833 },
  impedance: { value: 254.25970194801894, u: 0.23633613008237034 },
  correlations: { rx: -0.5884297844235794, rz: -0.48525922420999923, xz: 0.992511648949017 },
} as const;

/** Annex H.3: thermometer readings in °C, their corrections in °C, the fitted line b(t) = y1 + y2 (t − 20 °C). */
export const thermometerCalibration = {
  readingsC: [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511],
  correctionsK: [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16],
  published: {
    intercept: { value: -0.1712, u: 0.0029 },
    slope: { value: 0.00218, u: 0.00067 },
    correlation: -0.93,
    degreesOfFreedom: 9,
    at30: { value: -0.1494, u: 0.0041 },
  },
  /** Computed from the readings by an independent program; U with t(0.975, 9). */
  computed: {
    at30: { value: -0.1493768127324772, u: 0.004138595752854954, expanded95: 0.00936215402601028 },
  },
} as const;
