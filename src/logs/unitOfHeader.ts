import { type ExportUnit, exportUnit } from './exportUnits.js';
import { roleByWords } from './headerWords.js';

/** The unit found in a header, the header without it, and the bracketed text that is no unit we know. */
export interface HeaderUnit {
  readonly unit: ExportUnit | null;
  readonly words: string;
  readonly unknown: string | null;
}

/**
 * Finds the unit in a header: `P [W]`, `Power (kW)`, `T1/°F`, `Leistung in W`, `energy_kWh`, `Temp °C`, `W`.
 * Where no bracket marks it, the unit must agree with the words beside it, so that "T min" is no time.
 */
export function unitOfHeader(header: string): HeaderUnit {
  // What is longer is a sentence and no header.
  if (header.length > 200) return { unit: null, words: header, unknown: null };
  let unknown: string | null = null;
  for (const match of [...header.matchAll(/[[({<]\s*([^\])}>]*?)\s*[\])}>]/g)].reverse()) {
    const unit = exportUnit(match[1]!);
    if (unit) return { unit, words: header.replace(match[0], ' ').trim(), unknown: null };
    if (/\S/.test(match[1]!)) unknown = match[1]!;
  }
  const joined = /^(.*?)(?:\s+(?:in|en)\s+|\s*\/\s*|\s*,\s*|\s*:\s*)([^\s/]+(?: ?[CF])?)$/.exec(header);
  const trailing = /^(.*?)[_\s]+([^_\s]+)$/.exec(header);
  for (const match of [joined, trailing]) {
    const unit = match && exportUnit(match[2]!);
    if (!unit || !match) continue;
    const role = roleByWords(match[1]!);
    const agrees =
      role === unit.role || unit.role === 'ignored' || (role === null && [...match[2]!].length > 1);
    if (agrees && (unit.role !== 'time' || role === 'time')) return { unit, words: match[1]!, unknown: null };
  }
  const alone = exportUnit(header);
  return { unit: alone ?? null, words: header, unknown };
}
