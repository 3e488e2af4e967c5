/** Published and computed values for comparisons and decisions. */

/**
 * E_n numbers of ten gears a batch (NIST/SEMATECH gear data, e-Handbook 1.4.2.10) against a reference of 1. NIST's Dataplot
 * reference manual, page "ISO 13528 EN SCORE", prints 0.393, −0.262, −0.131 and 0.000 for the first four kinds of row;
 * the long ones computed with NumPy 1.24 from the data. [value, its expanded uncertainty, E_n]
 */
export const gearReference = { value: 1, expanded: 0.01255780975562959 };
export const gearScores: readonly (readonly [number, number, number])[] = [
  [1.006, 0.00869226987360354, 0.39285887504295075],
  [0.996, 0.00869226987360354, -0.2619059166953005],
  [0.998, 0.00869226987360354, -0.13095295834765025],
  [1, 0.00869226987360354, 0],
  [0.992, 0.00869226987360354, -0.523811833390601],
  [0.993, 0.00869226987360354, -0.45833535421677585],
  [1.002, 0.00869226987360354, 0.13095295834765025],
  [0.999, 0.00869226987360354, -0.06547647917382513],
  [0.994, 0.00869226987360354, -0.39285887504295075],
  [1, 0.00869226987360354, 0],
  [0.998, 0.010432854089099714, -0.12250288882851036],
  [1.006, 0.010432854089099714, 0.3675086664855311],
];
export const gearPrinted: readonly (readonly [number, number])[] = [
  [1.006, 0.393],
  [0.996, -0.262],
  [0.998, -0.131],
  [1.0, 0.0],
];

/**
 * JCGM 106:2012, example in 7.3.3: breakdown voltage of a Zener diode, −5.47 V with u = 0.05 V, upper limit −5.4 V; the
 * published probability of conformity is 92 %. From memory; the number to more digits from SciPy 1.10.1.
 */
export const zener = {
  value: -5.47,
  standardUncertainty: 0.05,
  upper: -5.4,
  published: 0.92,
  computed: 0.9192433407662273,
};

/** Φ(z) for z = (y − lower limit)/u, SciPy 1.10.1; JCGM 106:2012, 7.3. */
export const oneLimit: readonly (readonly [number, number])[] = [
  [-2, 0.022750131948179195],
  [-1.645, 0.049984905539121376],
  [-1, 0.15865525393145707],
  [0, 0.5],
  [0.5, 0.6914624612740131],
  [1, 0.8413447460685429],
  [1.282, 0.9000786768866171],
  [1.645, 0.9500150944608786],
  [2, 0.9772498680518208],
  [2.326, 0.9899907246591323],
  [3, 0.9986501019683699],
];

/**
 * Probability of conformity with two limits against the measurement capability index Cm = T/(4u) and ỹ = (y − lower)/T,
 * SciPy 1.10.1; JCGM 106:2012, 7.4 and figure 10. [Cm, ỹ, probability]
 */
export const twoLimits: readonly (readonly [number, number, number])[] = [
  [0.5, -0.1, 0.4068368430473984],
  [0.5, 0, 0.4772498680518208],
  [0.5, 0.1, 0.5433293903261773],
  [0.5, 0.25, 0.624655260005155],
  [0.5, 0.5, 0.6826894921370859],
  [1, -0.1, 0.3445728458457681],
  [1, 0, 0.4999683287581669],
  [1, 0.1, 0.6552626330201666],
  [1, 0.25, 0.8399948480369128],
  [1, 0.5, 0.9544997361036416],
  [1.5, -0.1, 0.27425311772951566],
  [1.5, 0, 0.4999999990134123],
  [1.5, 0.1, 0.7257468489294779],
  [1.5, 0.25, 0.9331894010580172],
  [1.5, 0.5, 0.9973002039367398],
  [2, -0.1, 0.21185539858339664],
  [2, 0, 0.49999999999999933],
  [2, 0.1, 0.7881446014163023],
  [2, 0.25, 0.9772498670652331],
  [2, 0.5, 0.9999366575163338],
];
