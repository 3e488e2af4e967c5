import { HeatledgerError, problem } from '../../errors/index.js';
import type { Figure, HeatingRequest } from '../../evaluation/index.js';
import { displayUnit, type QuantityKind, readQuantity, type UnitSystem } from '../../units/index.js';

/** What --predict asks for; without a power it is that of the runs. */
export type AskedHeating = Omit<HeatingRequest, 'powerW'> & { readonly powerW: number | null };

const place = { key: '--predict' };

/**
 * Reads "8 kg, 12 °C to 65 °C, 900 W": mass, start to end, power, in any order, with "room 18 °C" and "body 1500 J/K" (the
 * most that the heater body can hold) if wanted. Parts stand between commas followed by a blank, so that 8,5 kg is one.
 */
export function heatingRequest(text: string, units: UnitSystem): AskedHeating {
  const bad = (why: string) => problem('predict-unreadable', { got: text, why }, place);
  const found = new Map<string, number>();
  const put = (what: string, value: number) => {
    if (found.has(what)) throw bad(`the ${what} stands there twice`);
    found.set(what, value);
  };
  const read = (part: string, kind: QuantityKind) =>
    readQuantity(part, { kind, unit: displayUnit(kind, units) }, place).si;
  for (const part of text.split(/[,;]\s+/).map((each) => each.trim())) {
    const range = /^(?:from\s+)?(.+?)\s+to\s+(.+)$/i.exec(part);
    const named = /^(room|body)\s+(?:up to\s+)?(.+)$/i.exec(part);
    if (named) {
      const room = named[1]?.toLowerCase() === 'room';
      put(room ? 'room' : 'heater body', read(named[2] as string, room ? 'temperature' : 'heatCapacity'));
    } else if (range) {
      const [from, to] = [range[1] as string, range[2] as string];
      // "12 to 65 °C": the unit behind the end is that of both.
      const unit = /[^\d.,\s−-].*$/.exec(to)?.[0] ?? '';
      put('start', read(/[^\d.,\s−-]/.test(from) ? from : `${from} ${unit}`, 'temperature'));
      put('end', read(to, 'temperature'));
    } else if (isOf(part, 'mass')) put('mass', read(part, 'mass'));
    else if (isOf(part, 'power')) put('power', read(part, 'power'));
    else throw bad(`"${part}" is neither a mass, a power, nor a start and an end`);
  }
  const needed = (what: string) => {
    const value = found.get(what);
    if (value === undefined) throw bad(`there is no ${what} in it`);
    return value;
  };
  const body = found.get('heater body');
  return {
    massKg: needed('mass'),
    startK: needed('start'),
    endK: needed('end'),
    powerW: found.get('power') ?? null,
    ambientK: found.get('room') ?? null,
    ...(body === undefined ? {} : { mostBodyJPerK: body }),
  };
}

/** Whether a part with a unit of its own measures that. */
function isOf(part: string, kind: QuantityKind): boolean {
  if (!/\d\s*[^\d.,\s]/.test(part)) return false;
  try {
    readQuantity(part, { kind, unit: displayUnit(kind, 'si') });
    return true;
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    // Readable but in two ways: the reader says so, with both.
    return error.code === 'number-ambiguous';
  }
}

/** The request with the power of the figure's runs where none was stated. */
export function forFigure(asked: AskedHeating, figure: Figure): HeatingRequest {
  const powers = figure.runs.map(({ conditions }) => conditions.meanPowerW);
  const mean = powers.reduce((sum, watts) => sum + watts, 0) / powers.length;
  return { ...asked, powerW: asked.powerW ?? mean };
}
