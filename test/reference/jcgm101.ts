/**
 * The examples of JCGM 101:2008 (Supplement 1 to the GUM), clause 9. Inputs of 9.2 to 9.5: read in public reproductions. Published
 * results: from memory but for those marked read. "exact" are computed by an independent program: convolutions of
 * piecewise polynomials, quadrature, or for 9.5 a Monte Carlo of 4·10^7 draws with its standard errors.
 */

type Ends = readonly [number, number];

/** 9.2.2 to 9.2.4: sums of four inputs of mean zero, by standard deviation. */
export const additive = {
  gaussian: { u: 2, ends: [-3.92, 3.92] as Ends, exactHalf: 3.919927969080108 },
  /** Published MCM interval ±3.88; exact half-width 2√3·(2 − (3/5)^¼). */
  rectangular: {
    u: 2,
    ends: [-3.88, 3.88] as Ends,
    firstOrder: [-3.92, 3.92] as Ends,
    exactHalf: 3.879406741347821,
  },
  /** Three of standard deviation 1, one of 10. */
  mixed: {
    u: 10.1,
    ends: [-17, 17] as Ends,
    firstOrder: [-19.9, 19.9] as Ends,
    exactU: 10.14889156509222,
    exactHalf: 17.015814099862514,
  },
} as const;

/** 9.3, calibration of a weight: δm = (m_Rc + δm_Rc)·[1 + (a − 1.2)·(1/ρ_W − 1/ρ_R)] − 100 g, masses in mg. */
export const weight = {
  referenceMg: { value: 100_000, u: 0.05 },
  addedMg: { value: 1.234, u: 0.02 },
  airDensity: { low: 1.1, high: 1.3 },
  densityOfWeight: { low: 7000, high: 9000 },
  densityOfReference: { low: 7950, high: 8050 },
  nominalMg: 100_000,
  nominalAirDensity: 1.2,
  /** Table 6: estimate, u, shortest 95 % interval, d_low and d_high, verdict for one significant digit. */
  published: {
    firstOrder: { value: 1.234, u: 0.0539, ends: [1.1285, 1.3395] as Ends },
    monteCarlo: { mean: 1.2341, u: 0.0754, shortest: [1.0834, 1.3825] as Ends },
    dLow: 0.0451,
    dHigh: 0.043,
    validated: false,
  },
  exact: { mean: 1.234, u: 0.07547973995541792, ends: [1.0844332597454234, 1.383566740254405] as Ends },
} as const;

/** 9.4, comparison loss δY = X1² + X2², u(x1) = u(x2) = 0.005, x2 = 0; results times 1e6, shortest 95 % intervals. */
export interface LossCase {
  readonly x1: number;
  readonly r: number;
  readonly firstOrder: { readonly value: number; readonly u: number; readonly ends: Ends };
  readonly monteCarlo: { readonly mean: number; readonly u: number; readonly shortest: Ends };
  readonly exact: {
    readonly mean: number;
    readonly u: number;
    readonly shortest: Ends;
    readonly symmetric: Ends;
  };
}

/** Tables 8 and 9; the mean and u of x1 = 0.010, r = 0.9 (1.0e-4 and 1.21e-4): read. */
export const comparisonLoss: readonly LossCase[] = [
  {
    x1: 0,
    r: 0,
    firstOrder: { value: 0, u: 0, ends: [0, 0] },
    monteCarlo: { mean: 50, u: 50, shortest: [0, 150] },
    exact: {
      mean: 50,
      u: 50,
      shortest: [0, 149.7866136780428],
      symmetric: [1.2658903992165456, 184.44397270565884],
    },
  },
  {
    x1: 0.01,
    r: 0,
    firstOrder: { value: 100, u: 100, ends: [-96, 296] },
    monteCarlo: { mean: 150, u: 112, shortest: [0, 367] },
    exact: {
      mean: 150,
      u: 111.80339887498948,
      shortest: [0, 366.0052897467378],
      symmetric: [8.546844922991442, 427.1232824395293],
    },
  },
  {
    x1: 0.05,
    r: 0,
    firstOrder: { value: 2500, u: 500, ends: [1520, 3480] },
    monteCarlo: { mean: 2551, u: 502, shortest: [1590, 3543] },
    exact: {
      mean: 2550,
      u: 502.4937810560445,
      shortest: [1593.5697307860812, 3548.5698759784946],
      symmetric: [1638.4770698801235, 3603.358053916264],
    },
  },
  {
    x1: 0,
    r: 0.9,
    firstOrder: { value: 0, u: 0, ends: [0, 0] },
    monteCarlo: { mean: 50, u: 67, shortest: [0, 185] },
    exact: {
      mean: 50,
      u: 67.26812023536856,
      shortest: [0, 185.0564611413031],
      symmetric: [0.5609777314673341, 241.21718701628808],
    },
  },
  {
    x1: 0.01,
    r: 0.9,
    firstOrder: { value: 100, u: 100, ends: [-96, 296] },
    monteCarlo: { mean: 150, u: 121, shortest: [13, 398] },
    exact: {
      mean: 150,
      u: 120.5197079319395,
      shortest: [12.651555611177649, 397.47877771093334],
      symmetric: [29.08146670965609, 478.3106788949907],
    },
  },
  {
    x1: 0.05,
    r: 0.9,
    firstOrder: { value: 2500, u: 500, ends: [1520, 3480] },
    monteCarlo: { mean: 2551, u: 505, shortest: [1628, 3555] },
    exact: {
      mean: 2550,
      u: 504.5047076093543,
      shortest: [1624.418571577356, 3554.68245039465],
      symmetric: [1696.8579817289403, 3659.7962803809405],
    },
  },
];

/**
 * 9.5, calibration of a gauge block, lengths in nm: δL = L_s + D + d1 + d2 − L_nom − L_s·[δα·(θ0 + Δ) + α_s·δθ], δL the deviation
 * from the nominal length. Table 10; the curvilinear trapezoids are rectangles with limits that are not known exactly.
 */
export const gaugeBlock = {
  standard: { value: 50_000_623, u: 25, degreesOfFreedom: 18 },
  difference: { value: 215, u: 6, degreesOfFreedom: 24 },
  random: { u: 4, degreesOfFreedom: 5 },
  systematic: { u: 7, degreesOfFreedom: 8 },
  expansion: { low: 9.5e-6, high: 13.5e-6 },
  temperature: { value: -0.1, u: 0.2 },
  cyclic: { halfWidth: 0.5 },
  /** Their degrees of freedom, for first order: JCGM 100 H.1.6. */
  expansionDifference: { halfWidth: 1e-6, limitHalfWidth: 0.1e-6, degreesOfFreedom: 50 },
  temperatureDifference: { halfWidth: 0.05, limitHalfWidth: 0.025, degreesOfFreedom: 2 },
  nominal: 50_000_000,
  coverage: 0.99,
  /** Table 11. */
  published: {
    firstOrder: { value: 838, u: 32, ends: [745, 931] as Ends },
    monteCarlo: { mean: 838, u: 36, shortest: [745, 932] as Ends },
  },
  /** By 4·10^7 draws, each with its standard error. */
  computed: {
    mean: [837.9992449552414, 0.004963214696598771] as Ends,
    u: [35.810221088524486, 0.004103678679987742] as Ends,
    low: [744.3316924588755, 0.028946023628129734] as Ends,
    high: [931.6366775125265, 0.026302398016174833] as Ends,
    shortestLow: [744.2368223017081, 0.0778546469980961] as Ends,
    shortestHigh: [931.4861346034334, 0.07333979250701317] as Ends,
  },
} as const;
