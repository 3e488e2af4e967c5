/**
 * NIST Statistical Reference Datasets, linear regression (NIST/ITL StRD): the sets that strd-linear.ts does not hold, multiple
 * regression and lines through the origin among them. Typed from the published tables.
 */
export interface CertifiedRegression {
  /** What stands beside each parameter, in their order. */
  readonly columns: readonly (readonly number[])[];
  readonly y: readonly number[];
  readonly parameters: readonly number[];
  readonly standardErrors: readonly number[];
  readonly residualStandardDeviation: number;
}

/** Longley (1967): deflator, gross national product, unemployed, armed forces, population, year. */
const longley = [
  [83, 234289, 2356, 1590, 107608, 1947],
  [88.5, 259426, 2325, 1456, 108632, 1948],
  [88.2, 258054, 3682, 1616, 109773, 1949],
  [89.5, 284599, 3351, 1650, 110929, 1950],
  [96.2, 328975, 2099, 3099, 112075, 1951],
  [98.1, 346999, 1932, 3594, 113270, 1952],
  [99, 365385, 1870, 3547, 115094, 1953],
  [100, 363112, 3578, 3350, 116219, 1954],
  [101.2, 397469, 2904, 3048, 117388, 1955],
  [104.6, 419180, 2822, 2857, 118734, 1956],
  [108.4, 442769, 2936, 2798, 120445, 1957],
  [110.8, 444546, 4681, 2637, 121950, 1958],
  [112.6, 482704, 3813, 2552, 123366, 1959],
  [114.2, 502601, 3931, 2514, 125368, 1960],
  [115.7, 518173, 4806, 2572, 127852, 1961],
  [116.9, 554894, 4007, 2827, 130081, 1962],
];
/** 0 to 20, as in Wampler1 to Wampler5. */
const wamplerX = Array.from({ length: 21 }, (_, i) => i);
const wamplerColumns = [0, 1, 2, 3, 4, 5].map((power) => wamplerX.map((x) => x ** power));

export const strdRegression: Readonly<Record<string, CertifiedRegression>> = {
  Longley: {
    columns: [longley.map(() => 1), ...[0, 1, 2, 3, 4, 5].map((k) => longley.map((row) => row[k]!))],
    y: [
      60323, 61122, 60171, 61187, 63221, 63639, 64989, 63761, 66019, 67857, 68169, 66513, 68655, 69564, 69331,
      70551,
    ],
    parameters: [
      -3482258.63459582, 15.0618722713733, -0.035819179292591, -2.02022980381683, -1.03322686717359,
      -0.0511041056535807, 1829.15146461355,
    ],
    standardErrors: [
      890420.383607373, 84.9149257747669, 0.0334910077722432, 0.488399681651699, 0.214274163161675,
      0.22607320006937, 455.478499142212,
    ],
    residualStandardDeviation: 304.854073561965,
  },
  NoInt1: {
    columns: [[60, 61, 62, 63, 64, 65, 66, 67, 68, 69, 70]],
    y: [130, 131, 132, 133, 134, 135, 136, 137, 138, 139, 140],
    parameters: [2.07438016528926],
    standardErrors: [0.0165289256198347],
    residualStandardDeviation: 3.56753034006338,
  },
  NoInt2: {
    columns: [[4, 5, 6]],
    y: [3, 4, 4],
    parameters: [0.727272727272727],
    standardErrors: [0.0420827318078432],
    residualStandardDeviation: 0.369274472937998,
  },
  Wampler4: {
    columns: wamplerColumns,
    y: [
      75901, -204794, 204863, -204436, 253665, -200894, 214131, -185192, 221249, -138370, 315911, -27644,
      455253, 197434, 783995, 608816, 1370781, 1303798, 2205519, 2408860, 3444321,
    ],
    parameters: [1, 1, 1, 1, 1, 1],
    standardErrors: [
      215232.62467817, 236355.173469681, 77934.3524331583, 10147.550755035, 564.566512170752,
      11.2324854679312,
    ],
    residualStandardDeviation: 236014.502379268,
  },
  Wampler5: {
    columns: wamplerColumns,
    y: [
      7590001, -20479994, 20480063, -20479636, 25231365, -20476094, 20489331, -20460392, 18417449, -20413570,
      20591111, -20302844, 18651453, -20077766, 21059195, -19666384, 26348481, -18971402, 22480719, -17866340,
      10958421,
    ],
    parameters: [1, 1, 1, 1, 1, 1],
    standardErrors: [
      21523262.467817, 23635517.3469681, 7793435.24331583, 1014755.0755035, 56456.6512170752,
      1123.24854679312,
    ],
    residualStandardDeviation: 23601450.2379268,
  },
};
