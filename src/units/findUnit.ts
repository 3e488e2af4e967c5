import { type QuantityKind, quantityKinds } from './quantityKinds.js';
import { unitKey } from './unitKey.js';
import { unitTable } from './unitTable.js';

/** A unit of the table, ready for use. */
export interface Unit {
  readonly symbol: string;
  readonly numerator: number;
  readonly denominator: number;
  /** What a thermometer in this unit shows at 273.15 K; undefined where the zero is that of the SI unit. */
  readonly atIcePoint: number | undefined;
}

/** What a spelling means within one kind: one unit, or several symbols to choose from, or nothing. */
export type UnitMatch =
  | { readonly found: 'one'; readonly unit: Unit }
  | { readonly found: 'several'; readonly symbols: readonly string[] }
  | { readonly found: 'none' };

interface Entry {
  readonly unit: Unit;
  readonly key: string;
  /** True for a symbol with the SI prefix m or M, where a wrong capital is a factor of 10⁹. */
  readonly milliOrMega: boolean;
}

interface KindIndex {
  readonly exact: ReadonlyMap<string, readonly Entry[]>;
  readonly folded: ReadonlyMap<string, readonly Entry[]>;
}

const indexes = new Map<QuantityKind, KindIndex>();
let everyKey: ReadonlySet<string> | undefined;

/** Looks a spelling up among the units of one kind: as written first, then without regard to capitals. */
export function findUnit(spelling: string, kind: QuantityKind): UnitMatch {
  const key = unitKey(spelling);
  const { exact, folded } = indexOf(kind);
  const asWritten = exact.get(key);
  if (asWritten) return matchOf(asWritten, false);
  const loosely = folded.get(key.toLowerCase());
  if (!loosely) return { found: 'none' };
  const prefixCapital = loosely.some(
    (e) => e.milliOrMega && e.key[0] !== key[0] && e.key[0]!.toLowerCase() === key[0]?.toLowerCase(),
  );
  return matchOf(loosely, prefixCapital);
}

/** True where some kind of quantity has a unit of this spelling, whatever its capitals. */
export function isUnitSpelling(spelling: string): boolean {
  everyKey ??= new Set(quantityKinds.flatMap((kind) => [...indexOf(kind).folded.keys()]));
  return everyKey.has(unitKey(spelling).toLowerCase());
}

function matchOf(entries: readonly Entry[], doubtful: boolean): UnitMatch {
  const units = [...new Set(entries.map((e) => e.unit))];
  if (units.length === 1 && !doubtful) return { found: 'one', unit: units[0]! };
  return { found: 'several', symbols: units.map((u) => u.symbol) };
}

function indexOf(kind: QuantityKind): KindIndex {
  const known = indexes.get(kind);
  if (known) return known;
  const made = makeIndex(kind);
  indexes.set(kind, made);
  return made;
}

function makeIndex(kind: QuantityKind): KindIndex {
  const rows = unitTable[kind];
  const symbols = new Set(rows.map((row) => row[0]));
  const exact = new Map<string, Entry[]>();
  const folded = new Map<string, Entry[]>();
  for (const [symbol, numerator, denominator, spellings, atIcePoint] of rows) {
    const unit: Unit = { symbol, numerator, denominator, atIcePoint };
    const milliOrMega = /^[mM]/.test(symbol) && symbols.has(symbol.slice(1));
    for (const spelling of [symbol, ...(spellings?.split('|') ?? [])]) {
      const entry = { unit, key: unitKey(spelling), milliOrMega };
      add(exact, entry.key, entry);
      add(folded, entry.key.toLowerCase(), entry);
    }
  }
  return { exact, folded };
}

function add(map: Map<string, Entry[]>, key: string, entry: Entry): void {
  const list = map.get(key);
  if (list) list.push(entry);
  else map.set(key, [entry]);
}
