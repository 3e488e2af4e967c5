import { ln } from './elementary.mjs';

/**
 * A source of random numbers.
 * @typedef {object} Random
 * @property {() => number} uniform evenly spread in [0, 1), 32 bits fine
 * @property {() => number} normal mean 0, standard deviation 1
 * @property {(low: number, high: number) => number} between evenly spread in [low, high)
 * @property {(low: number, high: number) => number} whole a whole number, low and high included
 * @property {<T>(items: readonly T[]) => T[]} shuffled the items in random order
 */

/**
 * An independent, repeatable stream for each seed and label: a new use of random numbers gets its own label and
 * leaves the other draws as they were. xoshiro128** 1.1 (Blackman and Vigna, public domain), its state
 * filled by splitmix32; normal numbers by Marsaglia's polar method.
 * @param {number} seed whole number from 0 to 4294967295
 * @param {string} label
 * @returns {Random}
 */
export function randomStream(seed, label) {
  const next = xoshiro128(stateOf(seed, label));
  const uniform = () => next() / 4294967296;
  let spare = Number.NaN;
  const normal = () => {
    if (!Number.isNaN(spare)) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    for (;;) {
      const a = 2 * uniform() - 1;
      const b = 2 * uniform() - 1;
      const s = a * a + b * b;
      if (s > 0 && s < 1) {
        const scale = Math.sqrt((-2 * ln(s)) / s);
        spare = b * scale;
        return a * scale;
      }
    }
  };
  const between = (low, high) => low + (high - low) * uniform();
  const whole = (low, high) => low + Math.floor((high - low + 1) * uniform());
  const shuffled = (items) => {
    const result = [...items];
    for (let i = result.length - 1; i > 0; i--) {
      const j = whole(0, i);
      [result[i], result[j]] = [result[j], result[i]];
    }
    return result;
  };
  return { uniform, normal, between, whole, shuffled };
}

/** FNV-1a over the label, mixed with the seed and stretched to four words by splitmix32. */
function stateOf(seed, label) {
  if (!Number.isInteger(seed) || seed < 0 || seed > 4294967295) {
    throw new RangeError(`seed ${seed} is not a whole number from 0 to 4294967295`);
  }
  let hash = 2166136261;
  for (const character of label) hash = Math.imul(hash ^ character.codePointAt(0), 16777619);
  let z = mix(seed + 0x9e3779b9) ^ hash;
  return Uint32Array.from({ length: 4 }, () => {
    z = (z + 0x9e3779b9) | 0;
    return mix(z);
  });
}

function mix(word) {
  let z = word | 0;
  z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
  z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
  return (z ^ (z >>> 15)) >>> 0;
}

/**
 * xoshiro128** 1.1 on a state of four words, which it changes. Returns whole numbers from 0 to 4294967295.
 * @param {Uint32Array} state
 * @returns {() => number}
 */
export function xoshiro128(state) {
  const rotated = (x, k) => (x << k) | (x >>> (32 - k));
  const s = state;
  return () => {
    const result = Math.imul(rotated(Math.imul(s[1], 5), 7), 9) >>> 0;
    const t = s[1] << 9;
    s[2] ^= s[0];
    s[3] ^= s[1];
    s[1] ^= s[2];
    s[0] ^= s[3];
    s[2] ^= t;
    s[3] = rotated(s[3], 11);
    return result;
  };
}
