import { exponentialOf, logarithmOf } from './elementary.js';

/**
 * The tables of the Ziggurat for the normal density exp(−x²/2): G. Marsaglia and W. W. Tsang, Journal of Statistical
 * Software 5 (2000), 8; in the form of J. A. Doornik, "An improved Ziggurat method to generate normal random samples"
 * (2005), which takes the layer and the position from different bits. 256 layers of one area; the two constants
 * solve its closing condition, computed to 22 digits, checked in the tests.
 */
export const LAYERS = 256;
/** Where the tail begins. */
export const TAIL = 3.654152885361009;
/** Area of each layer, the lowest with its tail included. */
export const AREA = 0.004928673233974655;

/** Right edge of each layer from the bottom; the first is as wide as its area needs, the last entry is 0. */
export const edges = new Float64Array(LAYERS + 1);
/** Part of each layer that lies wholly under the curve. */
export const inside = new Float64Array(LAYERS);

edges[0] = AREA / exponentialOf(-0.5 * TAIL * TAIL);
edges[1] = TAIL;
for (let i = 2; i < LAYERS; i++) {
  const below = edges[i - 1] as number;
  edges[i] = Math.sqrt(-2 * logarithmOf(AREA / below + exponentialOf(-0.5 * below * below)));
}
for (let i = 0; i < LAYERS; i++) inside[i] = (edges[i + 1] as number) / (edges[i] as number);
