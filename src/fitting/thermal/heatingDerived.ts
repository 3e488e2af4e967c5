import { heatingTime } from './heatingTime.js';
import type { Prepared } from './Prepared.js';
import type { Derived } from './ThermalModel.js';
import type { ThermalFitOptions } from './types.js';

interface HeatingAt {
  readonly heatingRate: number;
  readonly lossRate: number;
  readonly startK: number;
}

const oneFill =
  'the heat capacity stated: from one fill only κ/C and UA/C can be known, and a heater body left out of C lowers κ by its share';

/**
 * What follows from κ/C (parameter 0) and UA/C (parameter 1) of a heating: τ, UA/κ, the temperature it tends to, the
 * time to a target, and with a heat capacity κ and UA. Gradients have `count` entries.
 */
export function heatingDerived(
  { heatingRate: a, lossRate: b, startK }: HeatingAt,
  count: number,
  { heatingPowerW, timeline }: Prepared,
  { heatCapacityJPerK: C, targetK }: ThermalFitOptions,
): Derived[] {
  const gradient = (...first: number[]) => Array.from({ length: count }, (_, j) => first[j] ?? 0);
  const powerW = heatingPowerW!;
  const ambientK = timeline!.referenceK;
  const losing = b > 0 ? {} : { reason: 'no loss to the room is seen in these data' };
  const atPower = `${Number(powerW.toPrecision(4))} W, the mean while heating, and a room at ${Number((ambientK - 273.15).toFixed(2))} °C`;
  const known = (value: number) => (b > 0 ? value : null);
  const derived: Derived[] = [
    {
      name: 'timeConstant',
      meaning: 'τ = C/UA',
      unit: 's',
      value: known(1 / b),
      gradient: gradient(0, -1 / b ** 2),
      ...losing,
    },
    {
      name: 'lossOverKappa',
      meaning: 'UA/κ, power at the meter for each kelvin held above the room',
      unit: 'W/K',
      value: b / a,
      gradient: gradient(-b / a ** 2, 1 / a),
    },
    {
      name: 'finalTemperature',
      meaning: 'T∞ = Ta + κ·P/UA',
      unit: 'K',
      value: known(ambientK + (a * powerW) / b),
      gradient: gradient(powerW / b, (-a * powerW) / b ** 2),
      conditionalOn: atPower,
      ...losing,
    },
  ];
  if (C !== undefined)
    derived.push(
      {
        name: 'kappa',
        meaning: 'κ, part of the metered energy that reaches the load',
        unit: '1',
        value: a * C,
        gradient: gradient(C),
        conditionalOn: oneFill,
      },
      {
        name: 'ua',
        meaning: 'UA, loss to the room for each kelvin',
        unit: 'W/K',
        value: b * C,
        gradient: gradient(0, C),
        conditionalOn: oneFill,
      },
    );
  if (targetK !== undefined) {
    const time = heatingTime(a * powerW, b, startK - ambientK, targetK - ambientK);
    const [byFlow, byLoss, byStart] = time?.gradient ?? [0, 0, 0];
    const full = gradient(byFlow! * powerW, byLoss!);
    full[count === 3 ? 2 : 3] = byStart!;
    derived.push({
      name: 'timeToTarget',
      meaning: 'heating from the first temperature to the target',
      unit: 's',
      value: time?.timeS ?? null,
      gradient: full,
      conditionalOn: atPower,
      ...(time ? {} : { reason: 'that temperature is not reached' }),
    });
  }
  return derived;
}
