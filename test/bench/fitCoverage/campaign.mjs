/**
 * One simulated campaign: a third and a full fill of the vat warmer, each heated and left to cool, both fitted by two
 * nodes, and what the program states of κ, UA and τ beside what is true.
 */
import { Draw } from '../coverage/random.mjs';
import { cells, drawnErrors, instruments, loggedTest, powerEveryS, vat } from './truth.mjs';

/** Fills, in kg, with how long they are heated and left to cool, in s. */
const fills = [
  { massKg: 1.2, heatS: 780, coolS: 5400 },
  { massKg: 3.6, heatS: 1980, coolS: 7200 },
];

/** Each switching lies anywhere between two readings of the power. */
const switchingU = powerEveryS / Math.sqrt(12);

/**
 * @param {any} program the library: fitting and uncertainty
 * @param {keyof typeof cells} cellName @param {number} seed @param {number} number
 * @param {Record<string, number>} [limits] standard uncertainties of the instruments
 */
export function campaign(program, cellName, seed, number, limits = instruments) {
  const draw = new Draw(seed, number);
  const errors = drawnErrors(draw, limits);
  const tests = fills.map((fill) => ({ ...loggedTest(draw, cells[cellName], errors, fill), fill }));
  const first = evaluated(program, tests, errors, limits, () => 0);
  const body = first.heater.bodyHeatCapacityJPerK.value;
  const { heater, fits, tau } = evaluated(
    program,
    tests,
    errors,
    limits,
    (capacity) => Math.max(0, body) / capacity,
  );
  const capacity = fills[1].massKg * vat.specificJPerKgK + vat.vesselJPerK + vat.bodyJPerK;
  const stated = {
    kappa: [heater.kappa, vat.kappa],
    body: [heater.bodyHeatCapacityJPerK, vat.bodyJPerK],
    ua: [heater.ua[1], vat.lossWPerK],
    tau: [tau, capacity / vat.lossWPerK],
  };
  return {
    fits,
    figures: Object.fromEntries(
      Object.entries(stated).map(([name, [quantity, truth]]) => {
        const { interval, expandedUncertainty } = program.propagate(quantity);
        const scatter = program
          .propagate(quantity)
          .budget.filter(({ source, correlationOf }) => source.member || correlationOf);
        return [
          name,
          {
            holds: interval[0] <= truth && truth <= interval[1],
            halfWidth: expandedUncertainty / truth,
            error: quantity.value / truth - 1,
            scatterShare: scatter.reduce((sum, { share }) => sum + share, 0),
          },
        ];
      }),
    ),
  };
}

/** Both fills fitted with heater bodies of a share of the load's heat capacity, and what comes of them. */
function evaluated(program, tests, errors, limits, ratioOf) {
  const { constant, add, multiply, errorOf, SourceBook, fitTwoNode, fitQuantities, twoFills } = program;
  const book = new SourceBook();
  const error = (/** @type {string} */ name, u = limits[name]) =>
    errorOf(book.get({ id: name, name, standardUncertainty: u, scope: 'instrument' }));
  const vessel = add(constant(vat.vesselJPerK - errors.vesselJPerK), error('vesselJPerK'));
  const results = tests.map(({ data, shownMassKg, fill }, i) => {
    const load = multiply(add(constant(shownMassKg), error('scaleKg')), constant(vat.specificJPerKgK));
    const fit = fitTwoNode(data, { bodyRatio: ratioOf(load.value + vessel.value) });
    const switching = ['on', 'off'].map((edge) => error(`${edge}-${i}`, switchingU / fill.heatS));
    const quantities = fitQuantities(fit, book, {
      id: `fill-${i}`,
      errors: {
        thermometerOffset: error('thermometerOffsetK'),
        thermometerGain: error('thermometerGain'),
        ambientOffset: error('ambientOffsetK'),
        meterGain: add(error('meterGain'), ...switching),
      },
    });
    return { fit, quantities, load };
  });
  const heater = twoFills(
    results.map(({ quantities, load }) => ({
      loadHeatCapacityJPerK: load,
      heatingRate: quantities.heatingRate,
      lossRate: quantities.lossRate,
    })),
    vessel,
  );
  return {
    heater,
    fits: results.every(({ fit }) => fit.verdict.fits),
    tau: results[1].quantities.timeConstant,
  };
}

/**
 * Whether a one-node fit of a load with a heater body of a quarter of its heat capacity is called unfit.
 * @param {any} program @param {keyof typeof cells} cellName @param {number} seed @param {number} number
 */
export function misfit(program, cellName, seed, number) {
  const draw = new Draw(seed, number);
  const massKg = draw.between(1, 4);
  const bodyJPerK = (massKg * vat.specificJPerKgK + vat.vesselJPerK) / 4;
  const test = { massKg, bodyJPerK, heatS: draw.between(400, 600) * massKg, coolS: draw.between(1800, 7200) };
  const { data } = loggedTest(draw, cells[cellName], drawnErrors(draw, instruments), test);
  const { verdict } = program.fitOneNode(data);
  return { unfit: !verdict.fits };
}
