const MASK = (1n << 64n) - 1n;

/** Two 64-bit numbers by SplitMix64 from a seed: what the authors of xoshiro recommend to fill its state with. */
function expand(seed: number): Uint32Array {
  let z = BigInt(seed);
  const state = new Uint32Array(4);
  for (let i = 0; i < 4; i += 2) {
    z = (z + 0x9e3779b97f4a7c15n) & MASK;
    let mixed = ((z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n) & MASK;
    mixed = ((mixed ^ (mixed >> 27n)) * 0x94d049bb133111ebn) & MASK;
    mixed ^= mixed >> 31n;
    state[i] = Number(mixed & 0xffffffffn);
    state[i + 1] = Number(mixed >> 32n);
  }
  return state;
}

/** The polynomial of a jump by 2^64 draws; from the published reference code, checked in the tests by squaring. */
const JUMP = [0x8764000b, 0xf542d2d3, 0x6fa035c3, 0x77f2db5b] as const;

/**
 * The generator xoshiro128** of D. Blackman and S. Vigna ("Scrambled linear pseudorandom number generators", ACM
 * Transactions on Mathematical Software 47, 2021): 128 bits of state, period 2^128 − 1, 32 bits a draw.
 */
export class Xoshiro {
  private s0 = 0;
  private s1 = 0;
  private s2 = 0;
  private s3 = 0;

  static seeded(seed: number): Xoshiro {
    const made = new Xoshiro();
    made.load(expand(seed), 0);
    return made;
  }

  /** Takes the state from four words of a table. */
  load(states: Uint32Array, at: number): void {
    this.s0 = (states[at] as number) | 0;
    this.s1 = (states[at + 1] as number) | 0;
    this.s2 = (states[at + 2] as number) | 0;
    this.s3 = (states[at + 3] as number) | 0;
  }

  store(states: Uint32Array, at: number): void {
    states[at] = this.s0;
    states[at + 1] = this.s1;
    states[at + 2] = this.s2;
    states[at + 3] = this.s3;
  }

  /** The next 32 bits as a signed integer. */
  next(): number {
    const five = Math.imul(this.s1, 5);
    const result = Math.imul((five << 7) | (five >>> 25), 9);
    const t = this.s1 << 9;
    this.s2 ^= this.s0;
    this.s3 ^= this.s1;
    this.s1 ^= this.s2;
    this.s0 ^= this.s3;
    this.s2 ^= t;
    this.s3 = (this.s3 << 11) | (this.s3 >>> 21);
    return result;
  }

  /**
   * Fills a block with uniform numbers between −half and +half, each the middle of one of 2^52 equal parts, from two draws: the
   * same as `next` gives, with the state kept in registers and both steps written out, which is twice as quick.
   */
  fillUniform(out: Float64Array, half: number): void {
    let { s0, s1, s2, s3 } = this;
    const step = half * 2 ** -51;
    for (let i = 0; i < out.length; i++) {
      let five = Math.imul(s1, 5);
      const first = Math.imul((five << 7) | (five >>> 25), 9);
      let t = s1 << 9;
      s2 ^= s0;
      s3 ^= s1;
      s1 ^= s2;
      s0 ^= s3;
      s2 ^= t;
      s3 = (s3 << 11) | (s3 >>> 21);
      five = Math.imul(s1, 5);
      const second = Math.imul((five << 7) | (five >>> 25), 9);
      t = s1 << 9;
      s2 ^= s0;
      s3 ^= s1;
      s1 ^= s2;
      s0 ^= s3;
      s2 ^= t;
      s3 = (s3 << 11) | (s3 >>> 21);
      out[i] = (first * 1048576 + (second >>> 12) + 0.5) * step;
    }
    this.s0 = s0;
    this.s1 = s1;
    this.s2 = s2;
    this.s3 = s3;
  }

  /** The same between −1 and 1, with 8 bits beside each that it does not depend on; again two draws. */
  fillLayered(out: Float64Array, layers: Uint8Array): void {
    let { s0, s1, s2, s3 } = this;
    for (let i = 0; i < out.length; i++) {
      let five = Math.imul(s1, 5);
      const first = Math.imul((five << 7) | (five >>> 25), 9);
      let t = s1 << 9;
      s2 ^= s0;
      s3 ^= s1;
      s1 ^= s2;
      s0 ^= s3;
      s2 ^= t;
      s3 = (s3 << 11) | (s3 >>> 21);
      five = Math.imul(s1, 5);
      const second = Math.imul((five << 7) | (five >>> 25), 9);
      t = s1 << 9;
      s2 ^= s0;
      s3 ^= s1;
      s1 ^= s2;
      s0 ^= s3;
      s2 ^= t;
      s3 = (s3 << 11) | (s3 >>> 21);
      out[i] = ((first >> 8) * 268435456 + (second >>> 4) + 0.5) * 2 ** -51;
      layers[i] = first;
    }
    this.s0 = s0;
    this.s1 = s1;
    this.s2 = s2;
    this.s3 = s3;
  }

  /** Goes 2^64 draws ahead: streams that start a jump apart don't overlap. */
  jump(): void {
    const sum = new Int32Array(4);
    for (const word of JUMP) {
      for (let bit = 0; bit < 32; bit++) {
        if (word & (1 << bit)) {
          sum[0]! ^= this.s0;
          sum[1]! ^= this.s1;
          sum[2]! ^= this.s2;
          sum[3]! ^= this.s3;
        }
        this.next();
      }
    }
    this.load(new Uint32Array(sum.buffer), 0);
  }
}
