import { strdUnivariate } from './statistics.js';

/** NIST Statistical Reference Datasets, univariate summary statistics: all nine sets with their certified values. */
export interface CertifiedUnivariate {
  readonly mean: number;
  readonly standardDeviation: number;
  readonly autocorrelation: number;
  readonly data: readonly number[];
}

/** NumAcc2, 3 and 4 are made by a rule: a first value, then one of a tenth less and one of a tenth more, 500 times. */
const stairs = (first: number, less: number, more: number) => [
  first,
  ...Array.from({ length: 1000 }, (_, k) => (k % 2 === 0 ? less : more)),
];

/**
 * PiDigits: the first 5000 digits of π, computed here by Machin's formula, but with the 3 that the set has in place 957
 * where π has an 8: the certified values belong to the 3.
 */
function piDigits(): number[] {
  const unit = 10n ** 5010n;
  const inverseTangent = (inverse: bigint) => {
    let power = unit / inverse;
    let sum = power;
    for (let k = 3n, sign = -1n; power > 0n; k += 2n, sign = -sign) {
      power /= inverse * inverse;
      sum += sign * (power / k);
    }
    return sum;
  };
  const pi = 4n * (4n * inverseTangent(5n) - inverseTangent(239n));
  const digits = Array.from(String(pi).slice(0, 5000), Number);
  digits[956] = 3;
  return digits;
}

export const strdAllUnivariate: Readonly<Record<string, CertifiedUnivariate>> = {
  PiDigits: {
    mean: 4.5348,
    standardDeviation: 2.86733906028871,
    autocorrelation: -0.00355099287237972,
    data: piDigits(),
  },
  Lottery: {
    mean: 518.95871559633,
    standardDeviation: 291.699727470969,
    autocorrelation: -0.120948622967393,
    data: [
      162, 671, 933, 414, 788, 730, 817, 33, 536, 875, 670, 236, 473, 167, 877, 980, 316, 950, 456, 92, 517,
      557, 956, 954, 104, 178, 794, 278, 147, 773, 437, 435, 502, 610, 582, 780, 689, 562, 964, 791, 28, 97,
      848, 281, 858, 538, 660, 972, 671, 613, 867, 448, 738, 966, 139, 636, 847, 659, 754, 243, 122, 455, 195,
      968, 793, 59, 730, 361, 574, 522, 97, 762, 431, 158, 429, 414, 22, 629, 788, 999, 187, 215, 810, 782,
      47, 34, 108, 986, 25, 644, 829, 630, 315, 567, 919, 331, 207, 412, 242, 607, 668, 944, 749, 168, 864,
      442, 533, 805, 372, 63, 458, 777, 416, 340, 436, 140, 919, 350, 510, 572, 905, 900, 85, 389, 473, 758,
      444, 169, 625, 692, 140, 897, 672, 288, 312, 860, 724, 226, 884, 508, 976, 741, 476, 417, 831, 15, 318,
      432, 241, 114, 799, 955, 833, 358, 935, 146, 630, 830, 440, 642, 356, 373, 271, 715, 367, 393, 190, 669,
      8, 861, 108, 795, 269, 590, 326, 866, 64, 523, 862, 840, 219, 382, 998, 4, 628, 305, 747, 247, 34, 747,
      729, 645, 856, 974, 24, 568, 24, 694, 608, 480, 410, 729, 947, 293, 53, 930, 223, 203, 677, 227, 62,
      455, 387, 318, 562, 242, 428, 968,
    ],
  },
  Lew: {
    mean: -177.435,
    standardDeviation: 277.332168044316,
    autocorrelation: -0.307304800605679,
    data: [
      -213, -564, -35, -15, 141, 115, -420, -360, 203, -338, -431, 194, -220, -513, 154, -125, -559, 92, -21,
      -579, -52, 99, -543, -175, 162, -457, -346, 204, -300, -474, 164, -107, -572, -8, 83, -541, -224, 180,
      -420, -374, 201, -236, -531, 83, 27, -564, -112, 131, -507, -254, 199, -311, -495, 143, -46, -579, -90,
      136, -472, -338, 202, -287, -477, 169, -124, -568, 17, 48, -568, -135, 162, -430, -422, 172, -74, -577,
      -13, 92, -534, -243, 194, -355, -465, 156, -81, -578, -64, 139, -449, -384, 193, -198, -538, 110, -44,
      -577, -6, 66, -552, -164, 161, -460, -344, 205, -281, -504, 134, -28, -576, -118, 156, -437, -381, 200,
      -220, -540, 83, 11, -568, -160, 172, -414, -408, 188, -125, -572, -32, 139, -492, -321, 205, -262, -504,
      142, -83, -574, 0, 48, -571, -106, 137, -501, -266, 190, -391, -406, 194, -186, -553, 83, -13, -577,
      -49, 103, -515, -280, 201, 300, -506, 131, -45, -578, -80, 138, -462, -361, 201, -211, -554, 32, 74,
      -533, -235, 187, -372, -442, 182, -147, -566, 25, 68, -535, -244, 194, -351, -463, 174, -125, -570, 15,
      72, -550, -190, 172, -424, -385, 198, -218, -536, 96,
    ],
  },
  Mavro: {
    mean: 2.001856,
    standardDeviation: 0.000429123454003053,
    autocorrelation: 0.937989183438248,
    data: strdUnivariate.Mavro.data,
  },
  Michelso: {
    mean: 299.8524,
    standardDeviation: 0.0790105478190518,
    autocorrelation: 0.535199668621283,
    data: strdUnivariate.Michelson.data,
  },
  NumAcc1: {
    mean: 10000002,
    standardDeviation: 1,
    autocorrelation: -0.5,
    data: strdUnivariate.NumAcc1.data,
  },
  NumAcc2: {
    mean: 1.2,
    standardDeviation: 0.1,
    autocorrelation: -0.999,
    data: stairs(1.2, 1.1, 1.3),
  },
  NumAcc3: {
    mean: 1000000.2,
    standardDeviation: 0.1,
    autocorrelation: -0.999,
    data: stairs(1000000.2, 1000000.1, 1000000.3),
  },
  NumAcc4: {
    mean: 10000000.2,
    standardDeviation: 0.1,
    autocorrelation: -0.999,
    data: stairs(10000000.2, 10000000.1, 10000000.3),
  },
};
