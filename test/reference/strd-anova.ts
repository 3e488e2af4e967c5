/**
 * NIST Statistical Reference Datasets, one-way analysis of variance: all eleven sets with their certified values.
 * `ofTheDoubles` is F of the data as doubles hold them, by exact rational arithmetic (Python 3 fractions): a value
 * such as 1000000000000.4 can't be held exactly, and no method that reads doubles can come closer to the certified F.
 */
export interface CertifiedAnova {
  readonly betweenDegrees: number;
  readonly betweenSquares: number;
  readonly withinDegrees: number;
  readonly withinSquares: number;
  readonly F: number;
  readonly rSquared: number;
  readonly residualStandardDeviation: number;
  readonly ofTheDoubles?: number;
  readonly groups: readonly (readonly number[])[];
}

/**
 * SmLs01 to 09 (Simon and Lesage) are made by a rule: nine groups about base + 0.4, 0.3, 0.5, 0.3, ...; in each that
 * value once, then a tenth less and a tenth more, `pairs` times.
 */
const simonLesage = (base: string, pairs: number) =>
  [4, 3, 5, 3, 5, 3, 5, 3, 5].map((tenths) => {
    const value = (of: number) => Number(`${base}.${of}`);
    const pair = [value(tenths - 1), value(tenths + 1)];
    return [value(tenths), ...Array.from({ length: pairs }, () => pair).flat()];
  });

export const strdAnova: Readonly<Record<string, CertifiedAnova>> = {
  SiRstv: {
    betweenDegrees: 4,
    betweenSquares: 0.0511462616,
    withinDegrees: 20,
    withinSquares: 0.21663656,
    F: 1.18046237440255,
    rSquared: 0.190999039051129,
    residualStandardDeviation: 0.104076068334656,
    ofTheDoubles: 1.1804623744024467,
    groups: [
      [196.3052, 196.124, 196.189, 196.2569, 196.3403],
      [196.3042, 196.3825, 196.1669, 196.3257, 196.0422],
      [196.1303, 196.2005, 196.2889, 196.0343, 196.1811],
      [196.2795, 196.1748, 196.1494, 196.1485, 195.9885],
      [196.2119, 196.1051, 196.185, 196.0052, 196.209],
    ],
  },
  AtmWtAg: {
    betweenDegrees: 1,
    betweenSquares: 3.638341875e-9,
    withinDegrees: 46,
    withinSquares: 1.04951729166667e-8,
    F: 15.946733567793,
    rSquared: 0.257426544538321,
    residualStandardDeviation: 1.5104831444641e-5,
    ofTheDoubles: 15.946733566676926,
    groups: [
      [
        107.8681568, 107.8681465, 107.8681572, 107.8681785, 107.8681446, 107.8681903, 107.8681526,
        107.8681494, 107.8681616, 107.8681587, 107.8681519, 107.8681486, 107.8681419, 107.8681569,
        107.8681508, 107.8681672, 107.8681385, 107.8681518, 107.8681662, 107.8681424, 107.868136, 107.8681333,
        107.868161, 107.8681477,
      ],
      [
        107.8681079, 107.8681344, 107.8681513, 107.8681197, 107.8681604, 107.8681385, 107.8681642,
        107.8681365, 107.8681151, 107.8681082, 107.8681517, 107.8681448, 107.8681198, 107.8681482,
        107.8681334, 107.8681609, 107.8681101, 107.8681512, 107.8681469, 107.868136, 107.8681254, 107.8681261,
        107.868145, 107.8681368,
      ],
    ],
  },
  SmLs01: {
    betweenDegrees: 8,
    betweenSquares: 1.68,
    withinDegrees: 180,
    withinSquares: 1.8,
    F: 21,
    rSquared: 0.482758620689655,
    residualStandardDeviation: 0.1,
    ofTheDoubles: 21,
    groups: simonLesage('1', 10),
  },
  SmLs02: {
    betweenDegrees: 8,
    betweenSquares: 16.08,
    withinDegrees: 1800,
    withinSquares: 18,
    F: 201,
    rSquared: 0.471830985915493,
    residualStandardDeviation: 0.1,
    ofTheDoubles: 201.00000000000003,
    groups: simonLesage('1', 100),
  },
  SmLs03: {
    betweenDegrees: 8,
    betweenSquares: 160.08,
    withinDegrees: 18000,
    withinSquares: 180,
    F: 2001,
    rSquared: 0.470712773465067,
    residualStandardDeviation: 0.1,
    ofTheDoubles: 2001.0000000000002,
    groups: simonLesage('1', 1000),
  },
  SmLs04: {
    betweenDegrees: 8,
    betweenSquares: 1.68,
    withinDegrees: 180,
    withinSquares: 1.8,
    F: 21,
    rSquared: 0.482758620689655,
    residualStandardDeviation: 0.1,
    ofTheDoubles: 21.0000000007761,
    groups: simonLesage('1000000', 10),
  },
  SmLs05: {
    betweenDegrees: 8,
    betweenSquares: 16.08,
    withinDegrees: 1800,
    withinSquares: 18,
    F: 201,
    rSquared: 0.471830985915493,
    residualStandardDeviation: 0.1,
    ofTheDoubles: 201.00000001241764,
    groups: simonLesage('1000000', 100),
  },
  SmLs06: {
    betweenDegrees: 8,
    betweenSquares: 160.08,
    withinDegrees: 18000,
    withinSquares: 180,
    F: 2001,
    rSquared: 0.470712773465067,
    residualStandardDeviation: 0.1,
    ofTheDoubles: 2001.0000001288329,
    groups: simonLesage('1000000', 1000),
  },
  SmLs07: {
    betweenDegrees: 8,
    betweenSquares: 1.68,
    withinDegrees: 180,
    withinSquares: 1.8,
    F: 21,
    rSquared: 0.482758620689655,
    residualStandardDeviation: 0.1,
    ofTheDoubles: 21.00081188781877,
    groups: simonLesage('1000000000000', 10),
  },
  SmLs08: {
    betweenDegrees: 8,
    betweenSquares: 16.08,
    withinDegrees: 1800,
    withinSquares: 18,
    F: 201,
    rSquared: 0.471830985915493,
    residualStandardDeviation: 0.1,
    ofTheDoubles: 201.01300409594845,
    groups: simonLesage('1000000000000', 100),
  },
  SmLs09: {
    betweenDegrees: 8,
    betweenSquares: 160.08,
    withinDegrees: 18000,
    withinSquares: 180,
    F: 2001,
    rSquared: 0.470712773465067,
    residualStandardDeviation: 0.1,
    ofTheDoubles: 2001.1349262209505,
    groups: simonLesage('1000000000000', 1000),
  },
};

/**
 * JCGM 100:2008, H.5: a Zener voltage standard, ten days of five readings; day means in V, standard deviations in µV. The
 * guide prints F = 2.25 from the rounded 57 and 85 µV; its table gives 2.262. Day data, 57 and 85 read in a public copy; the
 * other published numbers from memory, and computed here agrees with them.
 */
export const annexH5 = {
  dayMeans: [
    10.000172, 10.000116, 10.000013, 10.000144, 10.000106, 10.000031, 10.00006, 10.000125, 10.000163,
    10.000041,
  ],
  dayDeviationsMicro: [60, 77, 111, 101, 67, 93, 80, 73, 88, 86],
  published: {
    mean: 10.000097,
    ofMeansMicro: 57,
    pooledMicro: 85,
    fromMeansMicro: 128,
    F: 2.25,
    F95: 2.12,
    F975: 2.45,
    betweenMicro: 43,
    meanWithBetweenMicro: 18,
    meanWithoutBetweenMicro: 13,
  },
  /** NumPy 1.24 and SciPy 1.10 from the same inputs. */
  computed: {
    F: 2.2615192699707953,
    betweenMicro: 42.638610567314586,
    meanWithBetweenMicro: 18.05328532736109,
  },
};
