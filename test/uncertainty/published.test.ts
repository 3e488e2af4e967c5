import { describe, expect, it } from 'vitest';
import { coverageFactor } from '../../src/statistics/index.js';
import {
  add,
  constant,
  divide,
  errorOf,
  lift,
  multiply,
  propagate,
  type Quantity,
  scale,
  source,
  sensitivities,
  subtract,
} from '../../src/uncertainty/index.js';
import { clause437, endGauge, impedance, productOfThree, shapes, thermometerLine } from '../reference/gum.js';

const measured = (id: string, value: number, u: number, degreesOfFreedom = Number.POSITIVE_INFINITY) =>
  add(constant(value), errorOf(source({ id, name: id, standardUncertainty: u, degreesOfFreedom })));

/** l = l_S + d − l_S·(δα·θ + α_S·δθ), equation (H.2), lengths in nm. */
function endGaugeLength(inputs: {
  standard: Quantity;
  difference: Quantity;
  expansionDifference: Quantity;
  temperatureDifference: Quantity;
}): Quantity {
  const { expansion, temperature } = endGauge;
  const alpha = add(
    constant(expansion.value),
    errorOf(source({ id: 'alpha', name: 'expansion', halfWidth: expansion.halfWidth })),
  );
  const theta = add(
    constant(temperature.value),
    errorOf(source({ id: 'mean', name: 'mean of the bed', standardUncertainty: temperature.meanU })),
    errorOf(
      source({
        id: 'cyclic',
        name: 'cycle of the bed',
        distribution: 'arcsine',
        halfWidth: temperature.cyclicHalfWidth,
      }),
    ),
  );
  const stretch = add(
    multiply(inputs.expansionDifference, theta),
    multiply(alpha, inputs.temperatureDifference),
  );
  return subtract(add(inputs.standard, inputs.difference), multiply(inputs.standard, stretch));
}

describe('JCGM 100 annex H.1, end gauge', () => {
  const { standardNm, differenceNm, expansionDifference, temperatureDifference, published } = endGauge;
  const standard = measured('standard', standardNm.value, standardNm.u, standardNm.degreesOfFreedom);
  const rounded = propagate(
    endGaugeLength({
      standard,
      difference: measured('d', differenceNm.value, differenceNm.u, differenceNm.degreesOfFreedom),
      expansionDifference: measured('da', 0, expansionDifference.u, expansionDifference.degreesOfFreedom),
      temperatureDifference: measured(
        'dt',
        0,
        temperatureDifference.u,
        temperatureDifference.degreesOfFreedom,
      ),
    }),
    { coverage: 0.99 },
  );
  const contribution = (id: string) => rounded.budget.find((row) => row.source.id === id)?.contribution;

  it('gives the length', () => expect(rounded.value).toBe(published.lengthNm));
  it('gives the contributions', () => {
    const [ofStandard, ofDifference, ofExpansion, ofTemperature, ofDa, ofDt] = published.contributionsNm;
    expect(contribution('standard')).toBeCloseTo(ofStandard, 10);
    expect(contribution('d')).toBeCloseTo(ofDifference, 10);
    // Both act on what is zero at the estimate: first order sees nothing of them.
    for (const id of ['alpha', 'mean', 'cyclic']) expect(contribution(id)).toBe(ofExpansion + ofTemperature);
    expect(Math.abs((contribution('da') as number) - ofDa)).toBeLessThan(0.05);
    // 16.675 from the inputs as printed, 16.599 before u(δθ) was rounded to 0.029; printed: 16.6.
    expect(Math.abs((contribution('dt') as number) - ofDt)).toBeLessThan(0.08);
  });
  it('gives the combined uncertainty and its degrees of freedom', () => {
    expect(rounded.standardUncertainty).toBeCloseTo(published.combinedUnroundedNm, 2);
    expect(Math.round(rounded.standardUncertainty)).toBe(published.combinedNm);
    expect(rounded.degreesOfFreedom).toBeCloseTo(published.effectiveDegreesOfFreedom, 1);
  });
  it('gives k and U at 99 %', () => {
    // The annex cuts 16.7 to 16; here the degrees of freedom stay as they are, so k lies between those of 16 and 17.
    const cut = coverageFactor(0.99, Math.floor(rounded.degreesOfFreedom));
    expect(cut).toBeCloseTo(published.k99, 2);
    expect(Math.round(cut * rounded.standardUncertainty)).toBe(published.expanded99Nm);
    expect(rounded.coverageFactor).toBeLessThan(cut);
    expect(rounded.coverageFactor).toBeGreaterThan(coverageFactor(0.99, 17));
    expect(Math.abs(rounded.expandedUncertainty - published.expanded99Nm)).toBeLessThan(1);
  });
  it('gives the same from the parts, with nothing rounded on the way', () => {
    const parts = differenceNm.parts.map(({ u, degreesOfFreedom }, i) =>
      errorOf(source({ id: `d${i}`, name: `d${i}`, standardUncertainty: u, degreesOfFreedom })),
    );
    const difference = add(constant(differenceNm.value), ...parts);
    const ofDifference = propagate(difference);
    expect(ofDifference.standardUncertainty).toBeCloseTo(differenceNm.u, 1);
    expect(ofDifference.degreesOfFreedom).toBeCloseTo(differenceNm.degreesOfFreedom, 1);
    const rectangular = (id: string, each: { halfWidth: number; degreesOfFreedom: number }) =>
      errorOf(source({ id, name: id, halfWidth: each.halfWidth, degreesOfFreedom: each.degreesOfFreedom }));
    const whole = propagate(
      endGaugeLength({
        standard,
        difference,
        expansionDifference: rectangular('da', expansionDifference),
        temperatureDifference: rectangular('dt', temperatureDifference),
      }),
    );
    expect(Math.round(whole.standardUncertainty)).toBe(published.combinedNm);
    // 16.75, computed from the unrounded inputs; printed 16.7 from the rounded ones.
    expect(Math.abs(whole.degreesOfFreedom - published.effectiveDegreesOfFreedom)).toBeLessThan(0.1);
    const angle = whole.budget.filter((row) => row.source.id === 'dt' || row.source.id === 'da');
    expect(angle.map((row) => Number(row.contribution.toFixed(1)))).toEqual([16.6, 2.9]);
  });
});

const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
/** Covariance of the means of two series of simultaneous readings, JCGM 100 5.2.3, equation (17). */
function covarianceOfMeans(a: readonly number[], b: readonly number[]): number {
  const [ma, mb] = [meanOf(a), meanOf(b)];
  const sum = a.reduce((total, value, i) => total + (value - ma) * ((b[i] as number) - mb), 0);
  return sum / (a.length * (a.length - 1));
}

/** Lower triangle L with L·Lᵀ equal to the matrix. */
function cholesky(matrix: readonly (readonly number[])[]): number[][] {
  const lower = matrix.map((row) => row.map(() => 0));
  for (let i = 0; i < matrix.length; i++) {
    for (let j = 0; j <= i; j++) {
      let rest = matrix[i]![j]!;
      for (let k = 0; k < j; k++) rest -= lower[i]![k]! * lower[j]![k]!;
      lower[i]![j] = i === j ? Math.sqrt(rest) : rest / lower[j]![j]!;
    }
  }
  return lower;
}

/** Quantities with a covariance, by sources of standard uncertainty one that they share. */
function correlated(values: readonly number[], covariance: readonly (readonly number[])[]): Quantity[] {
  const shared = values.map((_, i) =>
    errorOf(source({ id: `z${i}`, name: `shared ${i}`, standardUncertainty: 1 })),
  );
  return cholesky(covariance).map((row, i) =>
    add(constant(values[i]!), ...row.map((weight, j) => scale(shared[j]!, weight))),
  );
}

function covarianceOf(a: Quantity, b: Quantity): number {
  const ofB = new Map(sensitivities(b).map((each) => [each.source.id, each.sensitivity]));
  return sensitivities(a).reduce(
    (sum, { source: { id, standardUncertainty }, sensitivity }) =>
      sum + sensitivity * (ofB.get(id) ?? 0) * standardUncertainty ** 2,
    0,
  );
}

describe('JCGM 100 annex H.2, simultaneous resistance and reactance', () => {
  const { published } = impedance;
  const series = [impedance.voltageV, impedance.currentA, impedance.phaseRad];
  const covariance = series.map((a) => series.map((b) => covarianceOfMeans(a, b)));
  const model = ([voltage, current, phase]: readonly Quantity[]) => {
    const z = divide(voltage!, current!);
    const cosine = lift('cosine', ([x]) => Math.cos(x!), [-Math.sin(phase!.value)], phase!);
    const sine = lift('sine', ([x]) => Math.sin(x!), [Math.cos(phase!.value)], phase!);
    return { r: multiply(z, cosine), x: multiply(z, sine), z };
  };
  const shared = model(correlated(series.map(meanOf), covariance));

  it('begins with the published correlations of the inputs', () => {
    const r = (i: number, j: number) =>
      covariance[i]![j]! / Math.sqrt(covariance[i]![i]! * covariance[j]![j]!);
    expect(r(0, 1)).toBeCloseTo(published.inputCorrelations.vi, 2);
    expect(r(0, 2)).toBeCloseTo(published.inputCorrelations.vPhi, 2);
    expect(r(1, 2)).toBeCloseTo(published.inputCorrelations.iPhi, 2);
  });
  it.each([
    ['R', shared.r, published.resistance],
    ['X', shared.x, published.reactance],
    ['Z', shared.z, published.impedance],
  ] as const)('gives %s', (_name, quantity, expected) => {
    const found = propagate(quantity);
    expect(Math.abs(found.value - expected.value)).toBeLessThan(0.0006);
    // One unit of the last digit printed: the annex rounds the correlations on its way.
    expect(Math.abs(found.standardUncertainty - expected.u)).toBeLessThan(0.001);
  });
  it('gives the correlations of the results', () => {
    const r = (a: Quantity, b: Quantity) =>
      covarianceOf(a, b) / propagate(a).standardUncertainty / propagate(b).standardUncertainty;
    expect(r(shared.r, shared.x)).toBeCloseTo(published.outputCorrelations.rx, 3);
    expect(r(shared.r, shared.z)).toBeCloseTo(published.outputCorrelations.rz, 3);
    expect(Math.abs(r(shared.x, shared.z) - published.outputCorrelations.xz)).toBeLessThan(6e-4);
  });
  it('gives other uncertainties where nothing is shared', () => {
    const alone = model(
      series.map((each, i) => measured(`s${i}`, meanOf(each), Math.sqrt(covariance[i]![i]!))),
    );
    for (const name of ['r', 'x', 'z'] as const) {
      expect(propagate(alone[name]).standardUncertainty).toBeCloseTo(published.withoutCorrelation[name], 3);
    }
  });
});

describe('JCGM 100 annex H.3, a calibration line', () => {
  it('gives the correction at 30 °C with its uncertainty', () => {
    const { interceptK, slope, correlation, at30 } = thermometerLine;
    const both = correlation * interceptK.u * slope.u;
    const [y1, y2] = correlated(
      [interceptK.value, slope.value],
      [
        [interceptK.u ** 2, both],
        [both, slope.u ** 2],
      ],
    );
    const found = propagate(add(y1!, scale(y2!, 30 - 20)));
    expect(found.value).toBeCloseTo(at30.value, 4);
    expect(found.standardUncertainty).toBeCloseTo(at30.u, 4);
  });
});

describe('JCGM 100 clause G.4.1', () => {
  it('gives u, degrees of freedom, k and U of a product of three', () => {
    const { relativePercent, degreesOfFreedom, published } = productOfThree;
    const [x1, x2, x3] = relativePercent.map((percent, i) =>
      measured(`x${i}`, 7 + i, ((7 + i) * percent) / 100, degreesOfFreedom[i]),
    );
    const found = propagate(multiply(multiply(x1!, x2!), x3!));
    const percent = (of: number) => (100 * of) / found.value;
    expect(percent(found.standardUncertainty)).toBeCloseTo(published.combinedPercent, 2);
    expect(found.degreesOfFreedom).toBeCloseTo(published.effectiveDegreesOfFreedom, 1);
    expect(found.coverageFactor).toBeCloseTo(published.t95, 2);
    expect(percent(found.expandedUncertainty)).toBeCloseTo(published.expandedPercent, 1);
  });
});

describe('JCGM 100 clause 4.3.7', () => {
  it('gives u of a limit that the error should not exceed', () => {
    const { copper } = clause437;
    const found = source({ id: 'cu', name: 'copper', halfWidth: copper.halfWidth });
    expect(found.distribution).toBe('rectangular');
    expect(found.standardUncertainty * 1e6).toBeCloseTo(copper.u * 1e6, 2);
  });
  it("gives a voltmeter's u from per cent of reading and of range, and the combined one of 5.1.5", () => {
    const { voltmeter } = clause437;
    const halfWidth = voltmeter.ofReading * voltmeter.readingV + voltmeter.ofRange * voltmeter.rangeV;
    expect(halfWidth * 1e6).toBeCloseTo(voltmeter.halfWidthV * 1e6, 0);
    const limit = source({ id: 'limit', name: 'limit', halfWidth });
    expect(limit.standardUncertainty * 1e6).toBeCloseTo(voltmeter.u * 1e6, 1);
    const repeat = source({ id: 'repeat', name: 'repeat', standardUncertainty: voltmeter.repeatU });
    const found = propagate(add(constant(voltmeter.readingV), errorOf(limit), errorOf(repeat)));
    expect(found.standardUncertainty * 1e6).toBeCloseTo(voltmeter.combinedU * 1e6, 0);
  });
  it.each(shapes)(
    'divides the half-width of a $distribution spread by $divisor',
    ({ distribution, divisor }) =>
      expect(source({ id: 's', name: 's', distribution, halfWidth: 3 }).standardUncertainty).toBeCloseTo(
        3 / divisor,
        12,
      ),
  );
  it.each([
    // β = 0 is the triangle and β = 1 the rectangle: JCGM 100 4.3.9.
    [0, Math.sqrt(6)],
    [1, Math.sqrt(3)],
    [0.5, Math.sqrt(6 / 1.25)],
  ])('divides that of a trapezoid with β = %d by %d', (topToBase, divisor) => {
    const found = source({ id: 's', name: 's', distribution: 'trapezoidal', halfWidth: 1, topToBase });
    expect(found.standardUncertainty).toBeCloseTo(1 / divisor, 12);
  });
});
