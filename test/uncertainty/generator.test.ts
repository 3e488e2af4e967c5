import { describe, expect, it } from 'vitest';
import { Xoshiro } from '../../src/uncertainty/monteCarlo/Xoshiro.js';
import { AREA, edges, LAYERS, TAIL } from '../../src/uncertainty/monteCarlo/ziggurat.js';

const from = (...state: number[]) => {
  const generator = new Xoshiro();
  generator.load(Uint32Array.from(state), 0);
  return generator;
};

const stateOf = (generator: Xoshiro): bigint => {
  const words = new Uint32Array(4);
  generator.store(words, 0);
  return words.reduceRight((sum, word) => (sum << 32n) | BigInt(word), 0n);
};

const wordsOf = (state: bigint) => [0n, 32n, 64n, 96n].map((at) => Number((state >> at) & 0xffffffffn));

/** A step of the generator as a matrix over GF(2): column i is where bit i goes. */
const step = (): bigint[] =>
  Array.from({ length: 128 }, (_, bit) => {
    const generator = from(...wordsOf(1n << BigInt(bit)));
    generator.next();
    return stateOf(generator);
  });

function times(matrix: readonly bigint[], vector: bigint): bigint {
  let sum = 0n;
  for (let bit = 0, rest = vector; rest > 0n; bit++, rest >>= 1n) if (rest & 1n) sum ^= matrix[bit]!;
  return sum;
}

describe('xoshiro128**', () => {
  it('gives the published first draws from the state 1, 2, 3, 4', () => {
    // Test vector of the rand_xoshiro crate (from memory); the authors' reference code, compiled, gives the same.
    const published = [
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ];
    const generator = from(1, 2, 3, 4);
    expect(published.map(() => generator.next() >>> 0)).toEqual(published);
  });

  it('jumps exactly 2^64 draws ahead', () => {
    // A draw is a linear map of the state, so 2^64 draws are its matrix squared 64 times.
    let matrix = step();
    for (let i = 0; i < 64; i++) {
      const squared = matrix.map((column) => times(matrix, column));
      matrix = squared;
    }
    for (const seed of [1, 2, 77]) {
      const generator = Xoshiro.seeded(seed);
      const before = stateOf(generator);
      generator.jump();
      expect(stateOf(generator)).toBe(times(matrix, before));
    }
  });

  it('is seeded by SplitMix64, whose first number from seed 0 is published', () => {
    // 0xe220a8397b1dcdaf and 0x6e789e6aa1b965f4: the reference code's first two, from memory.
    expect(stateOf(Xoshiro.seeded(0))).toBe((0x6e789e6aa1b965f4n << 64n) | 0xe220a8397b1dcdafn);
    expect(stateOf(Xoshiro.seeded(1))).not.toBe(stateOf(Xoshiro.seeded(2)));
  });

  it('fills blocks with what single draws give', () => {
    const [single, block, layered] = [Xoshiro.seeded(9), Xoshiro.seeded(9), Xoshiro.seeded(9)];
    const pairs = Array.from({ length: 100 }, () => [single.next(), single.next()] as const);
    const out = new Float64Array(100);
    block.fillUniform(out, 3);
    expect([...out]).toEqual(pairs.map(([a, b]) => (a * 2 ** 20 + (b >>> 12) + 0.5) * 3 * 2 ** -51));
    const layers = new Uint8Array(100);
    layered.fillLayered(out, layers);
    expect([...layers]).toEqual(pairs.map(([a]) => a & 255));
    expect([...out]).toEqual(pairs.map(([a, b]) => ((a >> 8) * 2 ** 28 + (b >>> 4) + 0.5) * 2 ** -51));
    expect(stateOf(block)).toBe(stateOf(single));
    expect(stateOf(layered)).toBe(stateOf(single));
  });
});

describe('the Ziggurat', () => {
  it('has layers of one area that close at the top', () => {
    const height = (x: number) => Math.exp(-0.5 * x * x);
    for (let i = 1; i < LAYERS; i++) {
      const [right, next] = [edges[i]!, edges[i + 1]!];
      expect(right * (height(next) - height(right))).toBeCloseTo(AREA, 14);
    }
    expect(edges[0]! * height(TAIL)).toBeCloseTo(AREA, 14);
    expect(edges[LAYERS]).toBe(0);
  });
  it('has 256 layers and a tail that make up the normal density', () => {
    // Half the area under exp(−x²/2).
    expect(LAYERS * AREA).toBeGreaterThan(Math.sqrt(Math.PI / 2));
    // Tail by its continued fraction: the lowest layer is the rectangle up to it and the tail.
    let fraction = TAIL;
    for (let k = 60; k >= 1; k--) fraction = TAIL + k / fraction;
    const density = Math.exp(-0.5 * TAIL * TAIL);
    expect(TAIL * density + density / fraction).toBeCloseTo(AREA, 15);
  });
});
