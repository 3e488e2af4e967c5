/**
 * The models of the 27 nonlinear sets of NIST's Statistical Reference Datasets (NIST/ITL StRD), each with its
 * derivatives, worked out by hand from the published formulas. Nelson's response is log(y); its x is a pair.
 */

/** @typedef {{ model: (x: any, b: readonly number[]) => number, jacobian: (x: any, b: readonly number[]) => number[] }} StrdModel */
/** @typedef {readonly number[]} List */

const { exp, cos, sin, log, PI } = Math;
/** @param {List} b @param {number} k */
const at = (b, k) => /** @type {number} */ (b[k - 1]);

/** b1·(1 − exp(−b2·x)) @type {StrdModel} */
const saturating = {
  model: (x, b) => at(b, 1) * (1 - exp(-at(b, 2) * x)),
  jacobian: (x, b) => [1 - exp(-at(b, 2) * x), at(b, 1) * x * exp(-at(b, 2) * x)],
};

/** exp(−b1·x)/(b2 + b3·x) @type {StrdModel} */
const chwirut = {
  model: (x, b) => exp(-at(b, 1) * x) / (at(b, 2) + at(b, 3) * x),
  jacobian: (x, b) => {
    const below = at(b, 2) + at(b, 3) * x;
    const f = exp(-at(b, 1) * x) / below;
    return [-x * f, -f / below, (-x * f) / below];
  },
};

/** b1·exp(−b2·x) + b3·exp(−(x − b4)²/b5²) + b6·exp(−(x − b7)²/b8²) @type {StrdModel} */
const gauss = {
  model: (x, b) =>
    at(b, 1) * exp(-at(b, 2) * x) +
    at(b, 3) * exp(-((x - at(b, 4)) ** 2) / at(b, 5) ** 2) +
    at(b, 6) * exp(-((x - at(b, 7)) ** 2) / at(b, 8) ** 2),
  jacobian: (x, b) => {
    const fall = exp(-at(b, 2) * x);
    const peak = (/** @type {number} */ k) => {
      const [height, z, width] = [at(b, k), x - at(b, k + 1), at(b, k + 2)];
      const f = exp(-(z ** 2) / width ** 2);
      return [f, (height * f * 2 * z) / width ** 2, (height * f * 2 * z ** 2) / width ** 3];
    };
    return [fall, -at(b, 1) * x * fall, ...peak(3), ...peak(6)];
  },
};

/** b1·exp(−b2·x) + b3·exp(−b4·x) + b5·exp(−b6·x) @type {StrdModel} */
const lanczos = {
  model: (x, b) =>
    at(b, 1) * exp(-at(b, 2) * x) + at(b, 3) * exp(-at(b, 4) * x) + at(b, 5) * exp(-at(b, 6) * x),
  jacobian: (x, b) =>
    [1, 3, 5].flatMap((k) => {
      const f = exp(-at(b, k + 1) * x);
      return [f, -at(b, k) * x * f];
    }),
};

/** (b1 + b2·x + b3·x² + b4·x³)/(1 + b5·x + b6·x² + b7·x³) @type {StrdModel} */
const cubics = {
  model: (x, b) =>
    (at(b, 1) + at(b, 2) * x + at(b, 3) * x ** 2 + at(b, 4) * x ** 3) /
    (1 + at(b, 5) * x + at(b, 6) * x ** 2 + at(b, 7) * x ** 3),
  jacobian: (x, b) => {
    const below = 1 + at(b, 5) * x + at(b, 6) * x ** 2 + at(b, 7) * x ** 3;
    const f = (at(b, 1) + at(b, 2) * x + at(b, 3) * x ** 2 + at(b, 4) * x ** 3) / below;
    return [1, x, x ** 2, x ** 3, -x * f, -(x ** 2) * f, -(x ** 3) * f].map((each) => each / below);
  },
};

/** @type {Readonly<Record<string, StrdModel>>} */
export const strdModels = {
  /** b1·(b2 + x)^(−1/b3) */
  Bennett5: {
    model: (x, b) => at(b, 1) * (at(b, 2) + x) ** (-1 / at(b, 3)),
    jacobian: (x, b) => {
      const [z, n] = [at(b, 2) + x, at(b, 3)];
      const f = at(b, 1) * z ** (-1 / n);
      return [z ** (-1 / n), -f / n / z, (f * log(z)) / n ** 2];
    },
  },
  BoxBOD: saturating,
  Chwirut1: chwirut,
  Chwirut2: chwirut,
  /** b1·x^b2 */
  DanWood: {
    model: (x, b) => at(b, 1) * x ** at(b, 2),
    jacobian: (x, b) => [x ** at(b, 2), at(b, 1) * x ** at(b, 2) * log(x)],
  },
  /** b1 + b2·cos(2πx/12) + b3·sin(2πx/12) + b5·cos(2πx/b4) + b6·sin(2πx/b4) + b8·cos(2πx/b7) + b9·sin(2πx/b7) */
  ENSO: {
    model: (x, b) => {
      const wave = (/** @type {number} */ period, /** @type {number} */ c, /** @type {number} */ s) =>
        c * cos((2 * PI * x) / period) + s * sin((2 * PI * x) / period);
      return (
        at(b, 1) +
        wave(12, at(b, 2), at(b, 3)) +
        wave(at(b, 4), at(b, 5), at(b, 6)) +
        wave(at(b, 7), at(b, 8), at(b, 9))
      );
    },
    jacobian: (x, b) => {
      const wave = (/** @type {number} */ period, /** @type {number} */ c, /** @type {number} */ s) => {
        const angle = (2 * PI * x) / period;
        return [(angle / period) * (c * sin(angle) - s * cos(angle)), cos(angle), sin(angle)];
      };
      return [
        1,
        ...wave(12, 0, 0).slice(1),
        ...wave(at(b, 4), at(b, 5), at(b, 6)),
        ...wave(at(b, 7), at(b, 8), at(b, 9)),
      ];
    },
  },
  /** (b1/b2)·exp(−½((x − b3)/b2)²) */
  Eckerle4: {
    model: (x, b) => (at(b, 1) / at(b, 2)) * exp(-0.5 * ((x - at(b, 3)) / at(b, 2)) ** 2),
    jacobian: (x, b) => {
      const z = (x - at(b, 3)) / at(b, 2);
      const e = exp(-0.5 * z ** 2);
      const f = (at(b, 1) / at(b, 2)) * e;
      return [e / at(b, 2), (f * (z ** 2 - 1)) / at(b, 2), (f * z) / at(b, 2)];
    },
  },
  Gauss1: gauss,
  Gauss2: gauss,
  Gauss3: gauss,
  Hahn1: cubics,
  /** (b1 + b2·x + b3·x²)/(1 + b4·x + b5·x²) */
  Kirby2: {
    model: (x, b) => (at(b, 1) + at(b, 2) * x + at(b, 3) * x ** 2) / (1 + at(b, 4) * x + at(b, 5) * x ** 2),
    jacobian: (x, b) => {
      const below = 1 + at(b, 4) * x + at(b, 5) * x ** 2;
      const f = (at(b, 1) + at(b, 2) * x + at(b, 3) * x ** 2) / below;
      return [1, x, x ** 2, -x * f, -(x ** 2) * f].map((each) => each / below);
    },
  },
  Lanczos1: lanczos,
  Lanczos2: lanczos,
  Lanczos3: lanczos,
  /** b1·(x² + b2·x)/(x² + b3·x + b4) */
  MGH09: {
    model: (x, b) => (at(b, 1) * (x ** 2 + at(b, 2) * x)) / (x ** 2 + at(b, 3) * x + at(b, 4)),
    jacobian: (x, b) => {
      const below = x ** 2 + at(b, 3) * x + at(b, 4);
      const f = (at(b, 1) * (x ** 2 + at(b, 2) * x)) / below;
      return [(x ** 2 + at(b, 2) * x) / below, (at(b, 1) * x) / below, (-x * f) / below, -f / below];
    },
  },
  /** b1·exp(b2/(x + b3)) */
  MGH10: {
    model: (x, b) => at(b, 1) * exp(at(b, 2) / (x + at(b, 3))),
    jacobian: (x, b) => {
      const z = x + at(b, 3);
      const e = exp(at(b, 2) / z);
      return [e, (at(b, 1) * e) / z, (-at(b, 1) * e * at(b, 2)) / z ** 2];
    },
  },
  /** b1 + b2·exp(−b4·x) + b3·exp(−b5·x) */
  MGH17: {
    model: (x, b) => at(b, 1) + at(b, 2) * exp(-x * at(b, 4)) + at(b, 3) * exp(-x * at(b, 5)),
    jacobian: (x, b) => {
      const [e, g] = [exp(-x * at(b, 4)), exp(-x * at(b, 5))];
      return [1, e, g, -x * at(b, 2) * e, -x * at(b, 3) * g];
    },
  },
  Misra1a: saturating,
  /** b1·(1 − (1 + b2·x/2)⁻²) */
  Misra1b: {
    model: (x, b) => at(b, 1) * (1 - (1 + (at(b, 2) * x) / 2) ** -2),
    jacobian: (x, b) => {
      const z = 1 + (at(b, 2) * x) / 2;
      return [1 - z ** -2, at(b, 1) * x * z ** -3];
    },
  },
  /** b1·(1 − (1 + 2·b2·x)^(−½)) */
  Misra1c: {
    model: (x, b) => at(b, 1) * (1 - (1 + 2 * at(b, 2) * x) ** -0.5),
    jacobian: (x, b) => {
      const z = 1 + 2 * at(b, 2) * x;
      return [1 - z ** -0.5, at(b, 1) * x * z ** -1.5];
    },
  },
  /** b1·b2·x/(1 + b2·x) */
  Misra1d: {
    model: (x, b) => (at(b, 1) * at(b, 2) * x) / (1 + at(b, 2) * x),
    jacobian: (x, b) => {
      const z = 1 + at(b, 2) * x;
      return [(at(b, 2) * x) / z, (at(b, 1) * x) / z ** 2];
    },
  },
  /** log y = b1 − b2·x1·exp(−b3·x2) */
  Nelson: {
    model: ([x1, x2], b) => at(b, 1) - at(b, 2) * x1 * exp(-at(b, 3) * x2),
    jacobian: ([x1, x2], b) => {
      const e = x1 * exp(-at(b, 3) * x2);
      return [1, -e, at(b, 2) * x2 * e];
    },
  },
  /** b1/(1 + exp(b2 − b3·x)) */
  Rat42: {
    model: (x, b) => at(b, 1) / (1 + exp(at(b, 2) - at(b, 3) * x)),
    jacobian: (x, b) => {
      const e = exp(at(b, 2) - at(b, 3) * x);
      const f = at(b, 1) / (1 + e);
      return [1 / (1 + e), (-f * e) / (1 + e), (f * e * x) / (1 + e)];
    },
  },
  /** b1/(1 + exp(b2 − b3·x))^(1/b4) */
  Rat43: {
    model: (x, b) => at(b, 1) / (1 + exp(at(b, 2) - at(b, 3) * x)) ** (1 / at(b, 4)),
    jacobian: (x, b) => {
      const e = exp(at(b, 2) - at(b, 3) * x);
      const root = (1 + e) ** (-1 / at(b, 4));
      const f = at(b, 1) * root;
      const slope = (f * e) / (1 + e) / at(b, 4);
      return [root, -slope, slope * x, (f * log(1 + e)) / at(b, 4) ** 2];
    },
  },
  /** b1 − b2·x − arctan(b3/(x − b4))/π */
  Roszman1: {
    model: (x, b) => at(b, 1) - at(b, 2) * x - Math.atan(at(b, 3) / (x - at(b, 4))) / PI,
    jacobian: (x, b) => {
      const z = x - at(b, 4);
      const below = PI * (z ** 2 + at(b, 3) ** 2);
      return [1, -x, -z / below, -at(b, 3) / below];
    },
  },
  Thurber: cubics,
};
