/** What the needs of a protocol are judged by. */
interface Asking {
  readonly evaluates: 'efficiency' | 'cool-down' | 'hold' | 'boil-off';
  readonly fills?: readonly string[] | undefined;
  readonly start?: 'rest' | 'warm' | undefined;
  readonly headline?: string | undefined;
  readonly limits: Readonly<Record<string, unknown>>;
  readonly steps: readonly {
    readonly id: string;
    readonly kind: string;
    readonly role?: string | undefined;
    readonly options?: readonly string[];
  }[];
}

type Unmet = readonly [path: readonly string[], message: string];

/** Roles that each kind of evaluation rests on: one step has each of them. */
const roles = {
  efficiency: ['emptyMass', 'fullMass', 'startTemperature', 'endTemperature', 'energyAfter'],
  'cool-down': ['emptyMass', 'fullMass', 'ambientTemperature', 'begin', 'end'],
  hold: [
    'emptyMass',
    'fullMass',
    'startTemperature',
    'endTemperature',
    'ambientTemperature',
    'energyAfter',
    'begin',
    'end',
  ],
  'boil-off': ['fullMass', 'finalMass', 'ambientTemperature', 'energyAfter', 'switchOn', 'switchOff'],
} as const;

const limits = {
  efficiency: ['minimumRise', 'maximumEnd', 'maximumRestDifference'],
  'cool-down': ['minimumDuration'],
  hold: ['minimumDuration', 'statedDifference'],
  'boil-off': ['minimumDuration'],
} as const;

/** What a protocol lacks for what it says it evaluates: path and message of each. */
export function needsUnmet(protocol: Asking): Unmet[] {
  const { evaluates, start, steps } = protocol;
  const count = (role: string) => steps.filter((step) => step.role === role).length;
  const warm =
    evaluates === 'efficiency' && start === 'warm' ? ['bodyTemperature', 'ambientTemperature'] : [];
  const unmet: Unmet[] = [...roles[evaluates], ...warm]
    .filter((role) => count(role) !== 1)
    .map((role) => [['steps'], onlyOne(role, count(role))]);
  const reason = `it is needed where a protocol evaluates ${evaluates}`;
  for (const key of limits[evaluates])
    if (protocol.limits[key] === undefined) unmet.push([['limits', key], reason]);
  if (evaluates === 'efficiency')
    for (const key of ['start', 'headline'] as const)
      if (protocol[key] === undefined) unmet.push([[key], reason]);
  if (evaluates === 'cool-down' && count('temperatureLog') + count('interimTemperature') === 0)
    unmet.push([['steps'], 'a step with the role temperatureLog or interimTemperature is needed']);
  return [...unmet, ...fillsUnmet(protocol)];
}

const onlyOne = (role: string, got: number) =>
  `exactly one step must have the role ${role}, ${got === 0 ? 'none has' : `${got} have`}`;

function fillsUnmet({ evaluates, fills, steps }: Asking): Unmet[] {
  const asking = steps.filter((step) => step.role === 'fill');
  if (fills === undefined)
    return asking.length === 0 ? [] : [[['fills'], 'a choice with the role fill needs the list of fills']];
  if (evaluates !== 'efficiency')
    return [[['fills'], 'fills belong to a protocol that evaluates efficiency']];
  if (asking.length !== 1) return [[['steps'], onlyOne('fill', asking.length)]];
  const offered = asking[0]?.options ?? [];
  const same = offered.length === fills.length && fills.every((fill) => offered.includes(fill));
  return same ? [] : [[['fills'], `the step ${asking[0]?.id} must offer the same fills`]];
}
