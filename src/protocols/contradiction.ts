import { formatQuantity } from '../units/index.js';
import type { ReadingRecord, RunRecord } from '../workbook/index.js';
import type { Protocol, ReadingRole, ReadingStep } from './schema.js';

/**
 * The reading with a role, if the run has it; the last one where a step was repeated.
 *
 * @example
 * const { protocol } = findProtocol('water-heating', null);
 * const readings = [{ step: 'fullWeight', si: 7.858 }];
 * readingOf(protocol, { readings }, 'fullMass').si // => 7.858
 * readingOf(protocol, { readings }, 'emptyMass') // => null
 */
export function readingOf(protocol: Protocol, run: RunRecord, role: ReadingRole): ReadingRecord | null {
  const step = protocol.steps.find((each) => each.kind === 'reading' && each.role === role);
  if (!step) return null;
  return run.readings.findLast((reading) => reading.step === step.id) ?? null;
}

/**
 * All readings with a role, oldest first.
 *
 * @example
 * const { protocol } = findProtocol('water-heating', null);
 * const readings = [{ step: 'interimTemperature', si: 295 }, { step: 'interimTemperature', si: 306 }];
 * readingsWith(protocol, { readings }, 'interimTemperature').length // => 2
 */
export function readingsWith(
  protocol: Protocol,
  run: RunRecord,
  role: ReadingRole,
): readonly ReadingRecord[] {
  const step = protocol.steps.find((each) => each.kind === 'reading' && each.role === role);
  return step ? run.readings.filter((reading) => reading.step === step.id) : [];
}

type Rule = (si: number, earlier: (role: ReadingRole) => ReadingRecord | null) => string | null;

/** What was typed, and what it was read as where that differs. */
function shown(reading: ReadingRecord): string {
  const read = `${reading.value} ${reading.unit}`;
  const plain = reading.typed === read || reading.typed === String(reading.value);
  return plain ? read : `"${reading.typed}", read as ${read}`;
}

/** What each reading of a heating may not contradict. A scale's last digit may wander, so a little is forgiven at the end. */
const weighing: Partial<Record<ReadingRole, Rule>> = {
  fullMass: (si, earlier) => {
    const empty = earlier('emptyMass');
    if (empty && si <= empty.si) {
      return `The vessel with water must weigh more than the empty one, which was kept as ${shown(empty)}. Type back to mend that one.`;
    }
    return null;
  },
  finalMass: (si, earlier) => {
    const full = earlier('fullMass');
    const empty = earlier('emptyMass');
    if (full && si > full.si * 1.005 + 0.002) {
      return `It can't weigh more than before, which was kept as ${shown(full)}. Is there a lid, a stirrer or a probe on the scale?`;
    }
    if (empty && si <= empty.si)
      return `No water would be left: the empty vessel was kept as ${shown(empty)}.`;
    if (full && empty && full.si - si > 0.5 * (full.si - empty.si)) {
      return `More than half of the water would have left as steam; before, it was ${shown(full)}. Check the number.`;
    }
    return null;
  },
};

const counting: Rule = (si, earlier) => {
  const before = earlier('energyBefore');
  if (si > (before?.si ?? 0)) return null;
  const text = before ? shown(before) : '0';
  return `The counter must have gone up from ${text}. If it was zeroed in between, type back and give 0 before.`;
};

const heating: typeof weighing = {
  ...weighing,
  endTemperature: (si, earlier) => {
    const start = earlier('startTemperature');
    if (start && si <= start.si) {
      return `The end must be warmer than the start, which was kept as ${shown(start)}. Type back to mend that one.`;
    }
    return null;
  },
  energyAfter: (si, earlier) =>
    counting(si, earlier) ?? heatAgainstEnergy(si - (earlier('energyBefore')?.si ?? 0), earlier),
};

/** A held temperature that moved by more is none. */
const HELD_K = 5;
const LATENT_J_PER_KG = 2.25e6;

const rules: Readonly<Record<Protocol['evaluates'], typeof weighing>> = {
  efficiency: heating,
  'cool-down': {
    ...weighing,
    endTemperature: (si, earlier) => {
      const start = earlier('startTemperature');
      if (!start || si < start.si) return null;
      return `The end of a cool-down must be cooler than its start, which was kept as ${shown(start)}. Type back to mend that one.`;
    },
  },
  hold: {
    ...weighing,
    endTemperature: (si, earlier) => {
      const start = earlier('startTemperature');
      if (!start || Math.abs(si - start.si) <= HELD_K) return null;
      return `A held temperature moves by ${HELD_K} K at most, but the start was kept as ${shown(start)}. Type back to mend that one.`;
    },
    energyAfter: counting,
  },
  'boil-off': {
    ...weighing,
    energyAfter: (si, earlier) =>
      counting(si, earlier) ?? steamAgainstEnergy(si - (earlier('energyBefore')?.si ?? 0), earlier),
  },
};

/** More heat in the steam than energy was metered, or next to none, means a slipped point or the wrong unit. */
function steamAgainstEnergy(
  energyJ: number,
  earlier: (role: ReadingRole) => ReadingRecord | null,
): string | null {
  const [full, final] = [earlier('fullMass'), earlier('finalMass')];
  if (!full || !final) return null;
  const heatJ = (full.si - final.si) * LATENT_J_PER_KG;
  if (energyJ >= 0.9 * heatJ && energyJ <= 200 * heatJ) return null;
  const heat = formatQuantity(heatJ, 'energy', 'kWh', 3);
  const energy = formatQuantity(energyJ, 'energy', 'kWh', 3);
  return `The steam took about ${heat}, the meter would say ${energy}. Check weights, decimal point and unit.`;
}

/** Metered energy far below the heat in the water means a slipped point or the wrong unit. */
function heatAgainstEnergy(
  energyJ: number,
  earlier: (role: ReadingRole) => ReadingRecord | null,
): string | null {
  const empty = earlier('emptyMass');
  const full = earlier('fullMass');
  const start = earlier('startTemperature');
  const end = earlier('endTemperature');
  if (!empty || !full || !start || !end) return null;
  const heatJ = (full.si - empty.si) * 4186 * (end.si - start.si);
  if (energyJ < 0.4 * heatJ || energyJ > 200 * heatJ) {
    const heat = formatQuantity(heatJ, 'energy', 'kWh', 3);
    const energy = formatQuantity(energyJ, 'energy', 'kWh', 3);
    return `The water took about ${heat}, the meter would say ${energy}. Check the decimal point and the unit.`;
  }
  return null;
}

/** What in the run a value would contradict, as a sentence with the other reading; null where nothing does. */
export function contradiction(
  protocol: Protocol,
  step: ReadingStep,
  si: number,
  run: RunRecord,
): string | null {
  if (step.role === undefined) return null;
  const rule = rules[protocol.evaluates][step.role];
  return rule ? rule(si, (role) => readingOf(protocol, run, role)) : null;
}
