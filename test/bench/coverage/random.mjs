/**
 * Random numbers of the coverage bench: sfc32 by C. Doty-Humphrey, from memory, started anew for every campaign from
 * the seed of its cell and its number, so that a campaign is the same whichever worker runs it. Nothing of it comes
 * from the program that is under test.
 */

/**
 * @param {number} seed @param {number} stream
 * @returns {() => number} uniform in [0, 1), 2^32 values
 */
export function uniformNumbers(seed, stream) {
  let a = seed | 0;
  let b = stream | 0;
  let c = 0x9e3779b9 | 0;
  let counter = 1;
  const next = () => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    c |= 0;
    return (sum >>> 0) / 2 ** 32;
  };
  // The first numbers still show how alike two seeds are.
  for (let i = 0; i < 20; i += 1) next();
  return next;
}

/** The shapes in which errors and truths are drawn. */
export class Draw {
  /** @param {number} seed @param {number} stream */
  constructor(seed, stream) {
    this.uniform = uniformNumbers(seed, stream);
  }

  /** @param {number} low @param {number} high @returns {number} */
  between(low, high) {
    return low + (high - low) * this.uniform();
  }

  /** Rectangular about zero. @param {number} halfWidth @returns {number} */
  within(halfWidth) {
    return this.between(-halfWidth, halfWidth);
  }

  /** Normal about zero, by Box and Muller. @param {number} standardDeviation @returns {number} */
  normal(standardDeviation) {
    const radius = Math.sqrt(-2 * Math.log(1 - this.uniform()));
    return standardDeviation * radius * Math.cos(2 * Math.PI * this.uniform());
  }

  /** Normal, drawn again until it lies in (0, 1]. @param {number} mean @param {number} standardDeviation @returns {number} */
  efficiency(mean, standardDeviation) {
    for (;;) {
      const drawn = mean + this.normal(standardDeviation);
      if (drawn > 0 && drawn <= 1) return drawn;
    }
  }
}
