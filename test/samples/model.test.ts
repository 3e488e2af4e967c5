import { describe, expect, it } from 'vitest';
import { simulateCampaign } from '../../samples/lib/campaign.mjs';
import { drawConditions } from '../../samples/lib/conditions.mjs';
import { HEATER, SETTINGS } from '../../samples/lib/heater.mjs';
import { heat } from '../../samples/lib/heating.mjs';
import { createModel } from '../../samples/lib/model.mjs';
import { randomStream } from '../../samples/lib/random.mjs';
import { balance, expectation } from '../../samples/lib/truth.mjs';
import {
  latentHeat,
  saturationPressure,
  waterEnthalpy,
  waterHeatCapacity,
} from '../../samples/lib/water.mjs';

const times = { insertS: -190, readS: -30, afterS: 300 };
const conditionsOf = (seed: number) => drawConditions(randomStream(seed, 'test').normal, 1);
const cases = SETTINGS.flatMap((setting) =>
  [1, 5, 7].map((stepS) => [setting.id, setting.powerW, stepS] as const),
);
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const variance = (values: readonly number[]) => mean(values.map((value) => (value - mean(values)) ** 2));

describe('the heat of a run', () => {
  it.each(cases)(
    '%s, %d W, steps of %d s: what goes in is kept, lost or gone as steam',
    (_id, powerW, stepS) => {
      const { first, last } = heat(conditionsOf(stepS), powerW, times, stepS);
      const keptJ = HEATER.bodyHeatCapacity * (last.bodyC - first.bodyC) + loadHeatJ(last) - loadHeatJ(first);
      const outJ = last.bodyLossJ + last.loadLossJ + last.vapourJ;
      expect(first.inputJ).toBe(0);
      expect(Math.abs((keptJ + outJ) / last.inputJ - 1)).toBeLessThan(1e-9);
    },
  );

  it.each(cases)('%s, %d W, steps of %d s: the true balance closes', (_id, powerW, stepS) => {
    const b = balance(heat(conditionsOf(stepS), powerW, times, stepS));
    const sum = b.heatWaterJ + b.heatVesselJ + b.heatVapourJ + b.heatRoomJ + b.heatBodyJ + b.heatBodyLossJ;
    expect(Math.abs(sum / b.energyMeteredTrueJ - 1)).toBeLessThan(1e-9);
    expect(b.restJ).toBeCloseTo(b.heatRoomJ + b.heatBodyJ + b.heatBodyLossJ, 3);
  });

  it.each([12, 50])(
    'from %d °C agrees with the same equations in temperatures, in very small straight steps',
    (waterC) => {
      const conditions = { ...conditionsOf(3), waterC };
      const model = createModel(conditions, 900);
      for (let timeS = 0; timeS < 300; timeS += 5) model.step(timeS, 5, true);
      const rk = model.snapshot();
      const euler = eulerSteps(conditions, 900, 300, 0.01);
      // The straight steps lag by about half a step of the fastest change: 0.01 s/2 times 0.8 K/s.
      expect(Math.abs(rk.bodyC - euler.bodyC)).toBeLessThan(0.004);
      expect(Math.abs(rk.loadC - euler.loadC)).toBeLessThan(0.0004);
      expect(Math.abs(rk.waterKg - euler.waterKg)).toBeLessThan(1e-7);
    },
  );

  it('without heating a warm load cools and a cold one, wetter than the room, still loses water', () => {
    const still = { ...conditionsOf(4), waterC: 50, bodyC: 50 };
    const model = createModel(still, 900);
    for (let timeS = 0; timeS < 3600; timeS += 10) model.step(timeS, 10, false);
    const now = model.snapshot();
    expect(now.inputJ).toBe(0);
    expect(now.loadC).toBeLessThan(50);
    expect(now.loadC).toBeGreaterThan(still.roomC);
    expect(now.waterKg).toBeLessThan(still.waterKg);
  });
});

type Load = { loadC: number; waterKg: number };
function loadHeatJ({ loadC, waterKg }: Load): number {
  return waterKg * waterEnthalpy(loadC) + HEATER.potKg * HEATER.potHeatCapacity * HEATER.wettedShare * loadC;
}

/** Body and load by explicit straight steps, the load as a temperature. */
function eulerSteps(c: ReturnType<typeof conditionsOf>, powerW: number, endS: number, dt: number) {
  let { bodyC, waterC: loadC, waterKg } = c;
  const pot = HEATER.potKg * HEATER.potHeatCapacity * HEATER.wettedShare;
  const roomPa = c.humidity * saturationPressure(c.roomC);
  for (let i = 0; i < Math.round(endS / dt); i++) {
    const power = powerW * (c.voltage(i * dt) / HEATER.nominalVoltage) ** 2;
    const across = HEATER.coupling * c.contact * (bodyC - loadC);
    const steam = HEATER.vapour * c.lidFit * (saturationPressure(loadC) - roomPa);
    const loadGain = across - HEATER.loadLoss * c.draught * (loadC - c.roomC) - steam * latentHeat(loadC);
    bodyC +=
      (dt / HEATER.bodyHeatCapacity) * (power - across - HEATER.bodyLoss * c.draught * (bodyC - c.roomC));
    loadC += (dt * loadGain) / (waterKg * waterHeatCapacity(loadC) + pot);
    waterKg -= dt * steam;
  }
  return { bodyC, loadC, waterKg };
}

describe('the true efficiency of a setting', () => {
  const campaigns = Array.from({ length: 40 }, (_, i) => simulateCampaign({ seed: 1000 + i, fast: true }));

  it.each(SETTINGS.map((setting) => [setting.id, setting.powerW] as const))(
    '%s: the mean of many runs is the stated one, and so is their scatter',
    (id, powerW) => {
      const stated = expectation(powerW, 1);
      const values = campaigns.flatMap(({ runs }) =>
        runs.filter((run) => run.setting === id).map((run) => run.truth.efficiencyWater),
      );
      expect(values.length).toBe(120);
      // Five standard errors of a mean of 120, and of a standard deviation of 120 (relative 1/sqrt(2·119)).
      expect(Math.abs(mean(values) - stated.efficiencyMean)).toBeLessThan(
        (5 * stated.scatterSd) / Math.sqrt(120),
      );
      expect(Math.abs(Math.sqrt(variance(values)) / stated.scatterSd - 1)).toBeLessThan(5 / Math.sqrt(238));
      expect(Math.min(...values)).toBeGreaterThan(0);
      expect(Math.max(...values)).toBeLessThan(1);
    },
  );

  it('is lowest at gentle, highest at full, and scatters less when contact and draught stay the same', () => {
    const [gentle, medium, full] = SETTINGS.map(({ powerW }) => expectation(powerW, 1));
    expect(gentle!.efficiencyMean).toBeLessThan(medium!.efficiencyMean - 0.03);
    expect(medium!.efficiencyMean).toBeLessThan(full!.efficiencyMean);
    for (const { powerW } of SETTINGS) {
      expect(expectation(powerW, 0).scatterSd).toBeLessThan(0.6 * expectation(powerW, 1).scatterSd);
    }
  });

  it('hardly depends on the step', () => {
    for (const { powerW } of SETTINGS) {
      const of = (stepS: number) => balance(heat(conditionsOf(9), powerW, times, stepS)).efficiencyWater;
      // The turning point is found to a step; a vapour of 5 mg/s and the flat top leave some 1e-5.
      expect(Math.abs(of(10) - of(1))).toBeLessThan(1e-4);
    }
  });
});
