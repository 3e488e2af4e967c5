/** The cells of the coverage bench, what is asked of each, and how a cell is judged. */
import { campaign } from './campaign.mjs';

export const bars = {
  /** Share of campaigns whose interval of the mean holds the true mean, and whose prediction holds a fresh heating. */
  mean: [0.94, 0.98],
  prediction: [0.935, 0.99],
  /** Mean half-width of the prediction over that of known variances, at most, by number of runs. */
  predictionWidth: { 3: 2.3, 5: 1.6, 10: 1.35 },
};

/** One seed a cell, chosen before any result was seen: the decimals of pi, five by five. */
const seeds = [
  14159, 26535, 89793, 23846, 26433, 83279, 50288, 41971, 69399, 37510, 58209, 74944, 59230, 78164, 6286,
  20899, 86280, 34825, 34211, 70679, 82148, 8651, 32823, 6647, 9384, 46095, 50582, 23172, 53594, 8128, 48111,
  74502, 84102, 70193, 85211, 5559,
];

/**
 * Runs, spread from run to run and shared uncertainty, both over what is fresh in a run.
 * @typedef {{ id: string, seed: number, runs: 3 | 5 | 10, spread: number, shared: number }} Cell
 */

/** @type {readonly Cell[]} */
export const cells = [3, 5, 10].flatMap((runs, i) =>
  [0, 0.5, 1, 3].flatMap((spread, j) =>
    [0.5, 1, 3].map((shared, k) => ({
      id: `n${runs}-spread${spread}-shared${shared}`,
      seed: seeds[(4 * i + j) * 3 + k],
      runs,
      spread,
      shared,
    })),
  ),
);

const normal95 = 1.959963984540054;

/** Sums over campaigns; two tallies of one cell add up. */
const noCampaigns = {
  campaigns: 0,
  meanHeld: 0,
  predictionHeld: 0,
  meanHalfWidth: 0,
  predictionHalfWidth: 0,
  /** Squares of the error of the mean, of what the evaluation says is fresh in a run and of what it says is shared. */
  error2: 0,
  fresh2: 0,
  shared2: 0,
};

/** @param {(typeof noCampaigns)[]} tallies */
export function sum(tallies) {
  const total = { ...noCampaigns };
  for (const tally of tallies) for (const key of Object.keys(total)) total[key] += tally[key];
  return total;
}

/** Campaigns `from` to `to` − 1 of a cell. @param {Cell} cell */
export function tally(lab, cell, from, to) {
  const total = { ...noCampaigns };
  for (let number = from; number < to; number += 1) {
    const { truth, future, evaluations, figure } = campaign(lab, cell, cell.seed, number);
    const { value, interval } = figure.efficiency;
    const prediction = figure.prediction.interval;
    total.campaigns += 1;
    total.meanHeld += interval[0] <= truth && truth <= interval[1] ? 1 : 0;
    total.predictionHeld += prediction[0] <= future && future <= prediction[1] ? 1 : 0;
    total.meanHalfWidth += (interval[1] - interval[0]) / 2;
    total.predictionHalfWidth += (prediction[1] - prediction[0]) / 2;
    total.error2 += (value - truth) ** 2;
    for (const { source, contribution } of evaluations[0].efficiency.water.budget) {
      const isFresh = source.scope === 'run' || source.scope === 'reading';
      total[isFresh ? 'fresh2' : 'shared2'] += contribution ** 2;
    }
  }
  return total;
}

/**
 * The figures of a cell from its sums. `spreadU` is the true standard deviation from run to run. Widths are over those
 * of somebody who knows all variances; `error` is the error of the mean so, which is 1 but for chance.
 * @param {Cell} cell @param {typeof noCampaigns} total @param {number} spreadU
 */
export function figuresOf(cell, total, spreadU) {
  const per = (key) => total[key] / total.campaigns;
  const known = (per('fresh2') + spreadU ** 2) / cell.runs + per('shared2');
  return {
    cell: cell.id,
    campaigns: total.campaigns,
    spreadRatio: spreadU / Math.sqrt(per('fresh2')),
    sharedRatio: Math.sqrt(per('shared2') / per('fresh2')),
    mean: per('meanHeld'),
    prediction: per('predictionHeld'),
    meanWidth: per('meanHalfWidth') / (normal95 * Math.sqrt(known)),
    predictionWidth: per('predictionHalfWidth') / (normal95 * Math.sqrt(known + spreadU ** 2)),
    error: Math.sqrt(per('error2') / known),
  };
}

/** How far a share lies from the middle of what is asked, over half of it: 1 at either end. */
const distance = (share, [low, high]) => Math.abs(share - (low + high) / 2) / ((high - low) / 2);

/**
 * Each figure of a cell over its bar; it holds at 1 or below. No allowance for chance: the figure as counted. The bench
 * must also have set up the cell it speaks of: its ratios within 5 % of what the name says.
 * @param {Cell} cell @param {ReturnType<typeof figuresOf>} figures
 */
export function overBars(cell, figures) {
  const off = (reached, wanted) => (wanted === 0 ? Math.abs(reached) : Math.abs(reached / wanted - 1)) / 0.05;
  return {
    mean: distance(figures.mean, bars.mean),
    prediction: distance(figures.prediction, bars.prediction),
    predictionWidth: figures.predictionWidth / bars.predictionWidth[cell.runs],
    setting: Math.max(off(figures.spreadRatio, cell.spread), off(figures.sharedRatio, cell.shared)),
  };
}
