import { describe, expect, it } from 'vitest';
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
  subtract,
} from '../../src/uncertainty/index.js';
import { enthalpy, enthalpyDerivatives, latentHeat } from '../../src/water/index.js';
import { efficiencyCases, panOfWater } from '../reference/efficiency.js';
import { evaluated, heater, kelvin } from './dairy.js';

const pascal = 101_325;

const measured = (id: string, [value, u]: readonly [number, number]) =>
  add(constant(value), errorOf(source({ id, name: id, standardUncertainty: u })));

function enthalpyAt(celsius: Quantity): Quantity {
  const at = (value: number) => enthalpy(kelvin(value), pascal);
  return lift(
    'enthalpy',
    ([value]) => at(value!),
    [enthalpyDerivatives(kelvin(celsius.value), pascal).dT],
    celsius,
  );
}

describe.each(efficiencyCases)('the published efficiency of case $id', (given) => {
  const [mass, start, end] = [
    measured('mass', given.massKg),
    measured('start', given.startC),
    measured('end', given.endC),
  ];
  const steam = scale(measured('steam', given.steamKg), 2_256_472.9);
  const vessel = scale(measured('vessel', given.vesselKJPerK), 1000);
  const useful = add(
    multiply(mass, subtract(enthalpyAt(end), enthalpyAt(start))),
    multiply(vessel, subtract(end, start)),
    steam,
  );
  const found = propagate(divide(useful, scale(measured('energy', given.energyWh), 3600)));

  // Nine digits: h of the reference is a fit to 2e-10 kJ/kg, and its derivatives are differences.
  it('has its value', () => {
    expect(found.value).toBeCloseTo(given.efficiency, 9);
    expect(useful.value / 1000).toBeCloseTo(given.usefulKJ, 6);
  });
  it('takes the latent heat as we do, to the digits it prints', () =>
    expect(latentHeat(kelvin(100)) / 1000).toBeCloseTo(2256.4729, 4));
  it('has its uncertainty', () => {
    expect(found.standardUncertainty).toBeCloseTo(given.u, 9);
    expect(found.expandedUncertainty).toBeCloseTo(given.expanded95, 8);
  });
  it.each(Object.entries(given.budget))('has the budget line of %s', (id, line) => {
    const row = found.budget.find((each) => each.source.id === id)!;
    expect(row.sensitivity).toBeCloseTo(line.sensitivity, 8);
    expect(row.contribution).toBeCloseTo(line.contribution, 9);
  });
});

describe('the published pan of water', () => {
  const pan = panOfWater;
  const run = evaluated(
    {
      emptyKg: pan.panKg,
      fullKg: pan.panKg + pan.waterKg,
      finalKg: pan.panKg + pan.waterKg,
      startC: pan.startC,
      endC: pan.endC,
      beforeKWh: 0,
      afterKWh: pan.totalKJ / 3600,
      heatingS: 100,
    },
    {
      bench: {
        heater: {
          ...heater,
          vessel: { material: 'aluminium', specificHeat: pan.specificHeatAluminium },
        },
      },
    },
  );
  const heatKJ = (name: string) => run.balance.find((booking) => booking.name === name)!.heat.value / 1000;
  // The example takes 4186 J/(kg K) where water has 4183 on average, and no buoyancy of air: 0.1 % each; it prints
  // three digits, 0.2 %. Together 0.5 % at most.
  const within = (found: number, printed: number) =>
    expect(Math.abs(found / printed - 1)).toBeLessThan(0.005);

  it('agrees on the heat of the water', () => within(heatKJ('water'), pan.waterKJ));
  it('agrees on the heat of the pan', () => within(heatKJ('vessel'), pan.panKJ));
  it('agrees on their sum', () => within(heatKJ('water') + heatKJ('vessel'), pan.totalKJ));
  it('agrees on the share of the water', () => {
    within(heatKJ('water') / (heatKJ('water') + heatKJ('vessel')), pan.intoWater);
    // All that was metered went into one or the other, so this is the efficiency too.
    within(run.efficiency.water!.value, pan.intoWater);
    within(run.efficiency['water+vessel']!.value, 1);
  });
});
