import { problem } from '../../errors/index.js';
import type { Log } from '../../logs/index.js';
import { readingOf } from '../../protocols/index.js';
import {
  add,
  constant,
  divide,
  errorOf,
  lift,
  multiply,
  type Quantity,
  type SourceBook,
  scale,
  subtract,
} from '../../uncertainty/index.js';
import { formatQuantity } from '../../units/index.js';
import {
  airDensity,
  buoyancyFactor,
  density,
  formulationUncertainty,
  latentHeat,
  saturationTemperatureK,
} from '../../water/index.js';
import type { Workbook } from '../../workbook/index.js';
import { pressureOf } from '../pressureOf.js';
import { neededQuantity, type RunContext, withAllowances } from '../RunContext.js';
import { runEnergy } from '../runEnergy.js';
import { intervalOf } from './intervalOf.js';
import { methodContext } from './methodContext.js';
import { roomOf } from './roomOf.js';
import type { MethodRun, StoredRun } from './types.js';

/** A boil-off, and what it gives once the loss to the room is known. */
export interface BoilOff extends MethodRun {
  /** (m_v·h_fg + UA·(T − Ta)·t)/E, t from weighing to weighing. */
  readonly withLoss: (uaWPerK: Quantity) => Quantity;
}

/** Air above boiling water is damp; the buoyancy of what left feels that by a millionth. */
const HUMIDITY = 0.5;

/**
 * A boil-off: η = m_v·h_fg/E, the heat that left as steam over the metered energy, with h_fg at the boiling point of the
 * air pressure. No thermometer takes part but in the loss to the room.
 */
export function boilOffRun(book: SourceBook, workbook: Workbook, stored: StoredRun): BoilOff {
  const context = methodContext(book, workbook, stored);
  intervalOf(context, 'switchOn', 'switchOff');
  const room = roomOf(context, 0);
  const pressure = pressureOf(context).quantity;
  const slope =
    (saturationTemperatureK(pressure.value + 50) - saturationTemperatureK(pressure.value - 50)) / 100;
  const boiling = lift('the boiling point', ([p]) => saturationTemperatureK(p as number), [slope], pressure);
  const steam = steamOf(context, boiling.value, pressure.value, room.mean.value);
  const energy = runEnergy(context, stored.powerLog as Log | null);
  const heat = multiply(steam, latentQuantity(context, boiling));
  const durationS = betweenWeighings(context);
  const excess = scale(subtract(boiling, room.mean), durationS);
  return {
    run: context.run,
    protocol: context.protocol,
    quantities: { boilOffEfficiency: divide(heat, energy.quantity) },
    withLoss: (ua) => {
      const atTheBoil = withAllowances(context, 'loss', ua);
      return divide(add(heat, multiply(atTheBoil, excess)), energy.quantity);
    },
    facts: {
      steamKg: steam.value,
      boilingK: boiling.value,
      ambientK: room.mean.value,
      pressurePa: pressure.value,
      durationS: energy.durationS,
      betweenWeighingsS: durationS,
      energyJ: energy.quantity.value,
      meanPowerW: energy.meanPowerW,
    },
    fit: null,
    efficiency: null,
    warnings: context.warnings,
  };
}

function steamOf(context: RunContext, boilingK: number, pressurePa: number, ambientK: number): Quantity {
  const full = neededQuantity(context, 'fullMass');
  const final = neededQuantity(context, 'finalMass');
  const air = airDensity(pressurePa, Math.min(333.15, Math.max(273.15, ambientK)), HUMIDITY);
  const left = scale(subtract(full, final), buoyancyFactor(air, density(boilingK - 0.01, pressurePa)));
  if (!(left.value > 0))
    throw problem(
      'vapour-not-positive',
      { run: context.run.id, got: formatQuantity(left.value, 'mass', 'g', 1) },
      { file: context.run.id },
    );
  return withAllowances(context, 'vapour', left);
}

function latentQuantity(context: RunContext, boiling: Quantity): Quantity {
  const slope = (latentHeat(boiling.value + 0.5) - latentHeat(boiling.value - 0.5)) / 1;
  const latent = lift('the latent heat', ([t]) => latentHeat(t as number), [slope], boiling);
  const formulation = context.book.get({
    id: 'lab:latent-heat',
    name: 'formulation of the latent heat',
    // h_fg is known as well as the enthalpy of the liquid, whose doubt is taken for it.
    halfWidth: formulationUncertainty.relativeHalfWidth,
    scope: 'lab',
  });
  return multiply(latent, add(constant(1), errorOf(formulation)));
}

function betweenWeighings(context: RunContext): number {
  const at = (role: 'fullMass' | 'finalMass') =>
    Date.parse(readingOf(context.protocol, context.run, role)?.at ?? '') / 1000;
  return Math.max(0, at('finalMass') - at('fullMass'));
}
